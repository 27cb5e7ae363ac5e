"""A rule as it stands after reading: frozen, every reference resolved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from service.reasoning.authority import Citation
from service.reasoning.vocabulary import CONCLUDED, Value

Op = Literal[
    "is", "one_of", "none_of", "at_least", "above", "at_most", "below", "between", "known", "has", "has_any", "has_none"
]
Outcome = Literal["say", "advise", "prefer", "mark_down", "caution", "set_aside", "forbid", "point_to"]
OUTCOMES: tuple[Outcome, ...] = (
    "say", "advise", "prefer", "mark_down", "caution", "set_aside", "forbid", "point_to"
)  # fmt: skip
TestValue = Value | tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Test:
    """One test on one fact; `limit_names` are the limits that its numbers came from."""

    __test__ = False  # this is no test class, whatever the name looks like to a test runner

    fact: str
    op: Op
    value: TestValue
    limit_names: tuple[str, ...] = ()

    @property
    def limit_name(self) -> str | None:
        """The limit that the number came from, where there is one."""
        return self.limit_names[0] if self.limit_names else None

    @property
    def needs_known(self) -> bool:
        """Whether it can hold only for a known fact."""
        return not (self.op == "known" and self.value is False)

    @property
    def boundaries(self) -> tuple[float, ...]:
        """The numbers at which the test turns over."""
        if self.op == "between":
            return self.value  # type: ignore[return-value]
        return (self.value,) if self.op in ("at_least", "above", "at_most", "below") else ()  # type: ignore[return-value]


@dataclass(frozen=True, slots=True)
class FromFact:
    """A conclusion that takes the value of a fact."""

    fact: str


@dataclass(frozen=True, slots=True)
class Example:
    """A case that a rule's writer gives; None in `given` means unknown."""

    name: str
    given: Mapping[str, Value | None]
    fires: bool
    line: int


@dataclass(frozen=True, slots=True)
class Reviewed:
    """When the rule was last looked through, and when it is due again."""

    last: date
    next: date


@dataclass(frozen=True, slots=True)
class Wording:
    """A rule's sentence in another language."""

    text: str
    why: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """One rule. `stratum` 0 reads facts only; a higher one reads what lower ones concluded."""

    id: str
    title: str
    when: tuple[Test, ...]
    outcome: Outcome
    text: str
    points: int
    conclude: Mapping[str, Value | FromFact]
    why: str
    sources: tuple[Citation, ...]
    basis: str | None
    cautions: tuple[str, ...]
    priority: int
    reviewed: Reviewed
    examples: tuple[Example, ...]
    file: str
    line: int
    ruleset: str
    point_to: tuple[str, ...] = ()
    limits: Mapping[str, float] = field(default_factory=dict)
    placeholders: tuple[str, ...] = ()
    stratum: int = 0
    tested: tuple[str, ...] = field(init=False, default=())  # the facts that `when` tests, in order, each once

    def __post_init__(self) -> None:
        object.__setattr__(self, "tested", tuple(dict.fromkeys(test.fact for test in self.when)))

    @property
    def reads(self) -> frozenset[str]:
        """The conclusions that `when` tests, without `concluded.`."""
        return frozenset(name.removeprefix(CONCLUDED) for name in self.tested if name.startswith(CONCLUDED))
