"""A planting list that is kept and checked in its own time: what was sent, how far the check is, and its parts.

A list may be checked more than once, as rules change; each check is told by its number.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, get_args

from service.domain.checked_list import VERDICTS, Verdict

State = Literal["waiting", "running", "done", "cancelled", "failed"]
STATES: tuple[State, ...] = get_args(State)
Form = Literal["file", "text", "rows"]
ENDED: frozenset[State] = frozenset({"done", "cancelled", "failed"})
_LETTERS: Mapping[Verdict, str] = dict(zip(VERDICTS, "fcdn", strict=True))


@dataclass(frozen=True, slots=True)
class SentList:
    """What was sent: the form of its content, the name of its file, the terms of the question as plain data.

    `lines_expected` is about how many lines it has, None where only reading it tells.
    """

    form: Form
    terms: Mapping[str, Any]
    name: str | None = None
    lines_expected: int | None = None


@dataclass(frozen=True, slots=True)
class Asking:
    """By which key of theirs, and with which request, somebody sends a list."""

    key: str | None = None
    request_digest: str = ""


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a check is. `changed_lines` counts lines whose verdict is another than in the check before."""

    list_id: str
    check_id: str
    number: int
    state: State
    sent_at: str
    asked_at: str
    name: str | None = None
    lines_done: int = 0
    lines_expected: int | None = None
    verdicts: Mapping[Verdict, int] = field(default_factory=dict)
    list_verdict: str | None = None
    rulebook: str | None = None
    ended_at: str | None = None
    changed_lines: int | None = None
    faults: tuple[tuple[str, str], ...] = ()

    @property
    def ended(self) -> bool:
        """Whether nothing more will happen to it."""
        return self.state in ENDED


@dataclass(frozen=True, slots=True)
class Work:
    """A check that somebody has taken to work on, and where to go on: after so many parts and lines.

    `attempt` tells those apart who took it one after the other; only the last one may write.
    """

    check_id: str
    list_id: str
    attempt: int
    sent: SentList
    parts_done: int = 0
    lines_done: int = 0


@dataclass(frozen=True, slots=True)
class Part:
    """Some lines of a check, in the order of the list: their verdicts, what they count up to, and how they are told.

    `told` is the JSON of the lines, packed; `verdicts` has a letter for each line; `tally` is plain data.
    """

    number: int
    lines: int
    verdicts: str
    tally: Mapping[str, Any]
    told: bytes = field(repr=False)


@dataclass(frozen=True, slots=True)
class ListEnd:
    """What ends a check: what is told of the list as a whole, packed, its verdict, and its last part."""

    told: bytes = field(repr=False)
    verdict: str
    last: Part | None = None


@dataclass(frozen=True, slots=True)
class Lease:
    """The right to do some work alone, for a while: what work it is, and who does it."""

    name: str
    holder: str
    seconds: float


def letters(verdicts: list[Verdict]) -> str:
    """Verdicts, a letter for each.

    >>> letters(["fits", "not_recognised"])
    'fn'
    """
    return "".join(_LETTERS[verdict] for verdict in verdicts)


def counted(verdicts: str) -> dict[Verdict, int]:
    """How many letters there are of each verdict.

    >>> counted("ffn")
    {'fits': 2, 'caution': 0, 'does_not_fit': 0, 'not_recognised': 1}
    """
    return {verdict: verdicts.count(letter) for verdict, letter in _LETTERS.items()}


def differing(before: str, after: str) -> int:
    """How many lines have another verdict; a line that only one of them has counts as well.

    >>> differing("ffn", "fcnn")
    2
    """
    return sum(one != two for one, two in zip(before, after, strict=False)) + abs(len(before) - len(after))
