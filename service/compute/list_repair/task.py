"""What a repair is made from, and what comes of it.

A line goes as a whole: all its trees are kept, changed alike, or dropped. What suits the place, who serves whom and
what a change costs are told; nothing of it is judged here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

Kept = Literal["keep", "rootstock", "replace"]
Reason = Literal["no_choice_fits", "no_pollen", "no_room"]


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to have a line: as listed, on another rootstock, or as another cultivar; `key` tells it back.

    `cultivars` are all that grow on the tree, `needed` says how many partners each needs, `serving` whose pollen serves
    it. An area of None is unknown and takes no room. `fit` (0-100) settles what costs the same.
    """

    key: str
    change: Kept
    cultivars: tuple[str, ...]
    fits: bool
    area_sq_ft: float | None
    fit: float
    needed: Mapping[str, int]
    serving: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the list with the ways to have it; dropping it is always one more."""

    line: int
    trees: int
    choices: tuple[Choice, ...]

    def __post_init__(self) -> None:
        if self.trees < 1:
            raise ValueError(f"line {self.line}: a line without trees needs no repair")
        if len({choice.key for choice in self.choices}) != len(self.choices):
            raise ValueError(f"line {self.line}: two of its choices have the same key")


@dataclass(frozen=True, slots=True)
class Costs:
    """What a change costs for each tree of a line, and an addition for each tree added."""

    keep: float
    rootstock: float
    replace: float
    add: float
    drop: float

    def __post_init__(self) -> None:
        if min(self._all) < 0:
            raise ValueError("a change costs something or nothing")

    @property
    def _all(self) -> tuple[float, ...]:
        return self.keep, self.rootstock, self.replace, self.add, self.drop

    @property
    def step(self) -> float:
        """The least by which two repairs can differ in cost, if they do.

        >>> Costs(keep=0, rootstock=1.5, replace=2, add=3, drop=5).step
        0.5
        """
        thousandths = math.gcd(*(round(1000 * cost) for cost in self._all))
        return thousandths / 1000 or 1.0

    def of(self, change: Kept) -> float:
        """The cost of having one tree so."""
        return {"keep": self.keep, "rootstock": self.rootstock, "replace": self.replace}[change]


@dataclass(frozen=True, slots=True)
class Room:
    """The ground for all trees, and how many there may be; None where there is no bound."""

    area_sq_ft: float | None = None
    max_trees: int | None = None


@dataclass(frozen=True, slots=True)
class Task:
    """The list to repair. Each addition may be planted once, and its key is its cultivar.

    `standing` says of each cultivar that stands near whether it crops alone, `crops_alone` names those of the list and
    of the additions that do: such a partner is enough by itself.
    """

    lines: tuple[Line, ...]
    additions: tuple[Choice, ...] = ()
    standing: Mapping[str, bool] = field(default_factory=dict)
    crops_alone: frozenset[str] = frozenset()
    room: Room = Room()

    def __post_init__(self) -> None:
        if len({line.line for line in self.lines}) != len(self.lines):
            raise ValueError("two lines have the same number")


@dataclass(frozen=True, slots=True)
class Changed:
    """What becomes of a line; a dropped one has no key."""

    line: int
    key: str | None
    change: Literal["keep", "rootstock", "replace", "drop"]


@dataclass(frozen=True, slots=True)
class Repair:
    """A repaired list, its lines in the order of the task; `proven` where no repair is cheaper."""

    lines: tuple[Changed, ...]
    added: tuple[str, ...]
    cost: float
    proven: bool


@dataclass(frozen=True, slots=True)
class NoRepair:
    """Why every line would have to go: none suits the place, or none has its pollen, or none goes in."""

    reason: Reason
