"""Which lines ask again for the tree of an earlier line. What is kept grows with the catalogue, not with the list."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.checked_list import Repeats
from service.domain.planting_list import ReadLine
from service.questions.planting_list.tree import RootAsked


@dataclass(frozen=True, slots=True)
class Repeated:
    """Whether a line repeats an earlier one, and which."""

    word: Repeats
    line: int | None = None


_NEVER = Repeated("never")


class Repetition:
    """Remembers of each tree the first line that asked for it."""

    def __init__(self) -> None:
        self._first: dict[tuple[str, ...], dict[RootAsked, int]] = {}

    def note(self, line: ReadLine) -> Repeated:
        """How the line stands to those before it; lines are noted once each, in their order."""
        if not line.recognised:
            return _NEVER
        roots = self._first.setdefault(tuple(name.cultivar for name in line.names if name.cultivar), {})
        asked = RootAsked.of(line)
        if asked in roots:
            return Repeated("same_tree", roots[asked])
        earlier = next(iter(roots.values()), None)
        roots[asked] = line.line
        return _NEVER if earlier is None else Repeated("other_root", earlier)
