"""Brings an old tree down over years."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Place = Literal["first", "middle", "last"]


@dataclass(frozen=True, slots=True)
class RenovationYear:
    """One year of it: the first is 1; `height_ft` is the height to reach in it."""

    year: int
    place: Place
    height_ft: float


def renovation_steps(height_ft: float, wanted_ft: float, *, years: int) -> tuple[RenovationYear, ...]:
    """The heights to reach year by year, in equal steps; a tree that is low enough has no steps.

    >>> [step.height_ft for step in renovation_steps(20, 11, years=3)]
    [17.0, 14.0, 11.0]
    >>> renovation_steps(8, 11, years=3)
    ()
    """
    if height_ft <= wanted_ft:
        return ()
    step = (height_ft - wanted_ft) / years
    return tuple(
        RenovationYear(year, _place(year, years), round(height_ft - step * year, 1)) for year in range(1, years + 1)
    )


def _place(year: int, years: int) -> Place:
    if year == years:
        return "last"
    return "first" if year == 1 else "middle"
