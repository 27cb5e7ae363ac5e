"""Checks a list in a file that is at hand, without a database: its parts wait in a temporary file for the whole."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from service.domain.checked_list import VERDICTS, Verdict, worst
from service.domain.errors import NotUnderstood
from service.domain.list_batch import Part, SentList, counted
from service.intake.planting_list import lines_expected
from service.present.planting_list_parts import Desk, ListInParts, unpacked
from service.questions.planting_list import ListPlace, list_reader, stream_of

IN_MEMORY_BYTES = 4 * 1024 * 1024
OF_LIST: Mapping[str, Verdict] = {"passes": "fits", "passes_with_care": "caution", "does_not_pass": "does_not_fit"}


class PartsAside:
    """The told lines of parts, laid aside in a file until they are wanted in their order."""

    def __init__(self) -> None:
        self._file: IO[bytes] = tempfile.SpooledTemporaryFile(IN_MEMORY_BYTES)  # noqa: SIM115  (see close)
        self._lengths = list[int]()

    def add(self, part: Part) -> None:
        """Lay the lines of a part aside."""
        self._file.write(part.told)
        self._lengths.append(len(part.told))

    def packed(self) -> Iterator[bytes]:
        """The lines of each part, packed as they came."""
        self._file.seek(0)
        for length in self._lengths:
            yield self._file.read(length)

    def close(self) -> None:
        """Throw them away."""
        self._file.close()


@dataclass(frozen=True, slots=True)
class CheckedFile:
    """What a list in a file came to; `told` is the answer without its lines, which `parts` holds."""

    path: Path
    told: Mapping[str, Any]
    list_verdict: str
    verdicts: Mapping[Verdict, int]
    parts: PartsAside

    @property
    def worst(self) -> Verdict:
        """The worst of its lines and of the list as a whole."""
        found = [verdict for verdict in VERDICTS if self.verdicts.get(verdict)]
        return worst([*found, OF_LIST.get(self.list_verdict, "caution")])

    def lines(self) -> Iterator[dict[str, Any]]:
        """The lines as they are told."""
        for packed in self.parts.packed():
            yield from unpacked(packed)


def expected_in(path: Path) -> int | None:
    """About how many lines the list in a file has."""
    with path.open("rb") as content:
        return lines_expected(content)


def check_file(path: Path, place: ListPlace, desk: Desk, *, on: Callable[[int], None]) -> CheckedFile:
    """Check the list in a file; `on` is told how many lines were done each time some are."""
    parts = PartsAside()
    try:
        with path.open("rb") as content:
            stream = stream_of(SentList("file", {}, path.name), content, list_reader(desk.rulebook))
            return _checked(path, ListInParts(stream, place, desk), parts, on)
    except NotUnderstood:
        parts.close()
        raise


def _checked(path: Path, checking: ListInParts, parts: PartsAside, on: Callable[[int], None]) -> CheckedFile:
    tallies, verdicts = list[Mapping[str, Any]](), list[str]()
    for part in checking.parts():
        parts.add(part)
        tallies.append(part.tally)
        verdicts.append(part.verdicts)
        on(part.lines)
    told, verdict = checking.whole(tallies)
    return CheckedFile(path, told, verdict, counted("".join(verdicts)), parts)
