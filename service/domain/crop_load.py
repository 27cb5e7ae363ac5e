"""What a person can say of the crop on a tree: its size, its branches, and the fruit on them.

Everything may be unknown, and unknown is None. What is given is checked when it is made; sizes that are possible and
odd stay, and rules say what is odd about them.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields
from typing import Literal, get_args

from service.domain.errors import NotUnderstood

SetClass = Literal["few", "good", "heavy", "every_cluster"]
_ABOVE_ZERO = ("length_in", "diameter_in", "age_years", "height_ft", "spread_ft", "trunk_girth_in")
SET_CLASSES: tuple[SetClass, ...] = get_args(SetClass)


@dataclass(frozen=True, slots=True)
class Branch:
    """A bearing branch: its length, its thickness an inch from the trunk, and what hangs on it.

    `places` counts each spot where fruit sits once, whether it holds one fruit, a pair or a cluster.
    """

    length_in: float | None = None
    diameter_in: float | None = None
    fruit: int | None = None
    places: int | None = None
    leaves: int | None = None

    def __post_init__(self) -> None:
        faults = list(_size_faults(self))
        if self.fruit is not None and self.places is not None and self.places > self.fruit:
            faults.append(("/places", f"{self.fruit} fruit cannot sit at {self.places} places"))
        if faults:
            raise NotUnderstood(*faults)


@dataclass(frozen=True, slots=True)
class TreeSize:
    """The size of a tree; `trunk_girth_in` is taken about a foot above the graft, or just below the first branches."""

    age_years: int | None = None
    height_ft: float | None = None
    spread_ft: float | None = None
    lowest_branch_ft: float | None = None
    trunk_girth_in: float | None = None

    def __post_init__(self) -> None:
        faults = list(_size_faults(self))
        if self.height_ft is not None and self.lowest_branch_ft is not None and self.lowest_branch_ft >= self.height_ft:
            faults.append(("/lowest_branch_ft", "the lowest branch stands below the top of the tree"))
        if faults:
            raise NotUnderstood(*faults)


@dataclass(frozen=True, slots=True)
class Load:
    """The fruit on a tree, or on the part of it that one variety holds.

    `fruit` counts all of them; branches without it are all that was counted, and with it they are a sample.
    """

    branches: tuple[Branch, ...] = ()
    fruit: int | None = None
    set: SetClass | None = None

    def __post_init__(self) -> None:
        faults = list(_size_faults(self))
        if self.set is not None and self.set not in SET_CLASSES:
            faults.append(("/set", f"“{self.set}” is not one of {', '.join(SET_CLASSES)}"))
        counted = sum(branch.fruit or 0 for branch in self.branches)
        if self.fruit is not None and self.fruit < counted:
            faults.append(("/fruit", f"the branches carry {counted} fruit, more than the {self.fruit} of the whole"))
        if faults:
            raise NotUnderstood(*faults)

    @property
    def counted(self) -> int | None:
        """The fruit that were counted: of the whole, or on the branches where each of them was counted.

        >>> Load(fruit=500).counted, Load((Branch(fruit=48), Branch(fruit=12))).counted, Load((Branch(24),)).counted
        (500, 60, None)
        """
        if self.fruit is not None:
            return self.fruit
        counts = [branch.fruit for branch in self.branches]
        return None if not counts or None in counts else sum(count for count in counts if count is not None)


def _size_faults(thing: Branch | TreeSize | Load) -> Iterator[tuple[str, str]]:
    for field in fields(thing):
        value = getattr(thing, field.name)
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        if not math.isfinite(value) or value < 0:
            yield f"/{field.name}", f"{value:g} is not a size or a count"
        elif value == 0 and field.name in _ABOVE_ZERO:
            yield f"/{field.name}", "this is above zero, or left out where nobody knows"
