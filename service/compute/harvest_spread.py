"""How the harvest of many trees spreads over the season: by week, by calendar month, and where it pauses.

Days are numbered through the season as everywhere (see `service.domain.month_day`). The first week begins on day 1; the
last, the fifty-second, takes the day that is left. A window may run over the end of the count, so the season is looked
at as a ring: it begins after the longest stretch of months without picking, and the empty months within it are gaps.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from service.domain.month_day import season_day

_YEAR_DAYS, _WEEK_DAYS, _WEEKS, _MONTHS = 365, 7, 52, 12


@dataclass(frozen=True, slots=True)
class Picking:
    """The days on which some trees are picked, both included; an end before the start runs over the turn."""

    from_day: int
    to_day: int
    trees: int

    def __post_init__(self) -> None:
        if not (1 <= self.from_day <= _YEAR_DAYS and 1 <= self.to_day <= _YEAR_DAYS):
            raise ValueError(f"a day of the season lies between 1 and 365, not {self.from_day} to {self.to_day}")
        if self.trees < 0:
            raise ValueError(f"there are no trees or some, not {self.trees}")


@dataclass(frozen=True, slots=True)
class Week:
    """A week by its first day, and the trees that are picked in it."""

    from_day: int
    trees: int


@dataclass(frozen=True, slots=True)
class Spread:
    """The harvest by week and by calendar month, empty ones included, months in the order of the season.

    `gaps` are the empty months between the first and the last picking. `busiest` is the week with the most trees, the
    first of such; its share is of all trees.
    """

    weeks: tuple[Week, ...]
    months: Mapping[int, int]
    gaps: tuple[int, ...]
    busiest: Week | None
    busiest_share: float


def spread_over(pickings: Sequence[Picking], *, southern: bool = False) -> Spread:
    """The harvest of some trees through the season.

    Two trees picked from 9 to 20 July and one from 1 to 10 September (made-up dates):

    >>> spread = spread_over([Picking(190, 201, 2), Picking(244, 253, 1)])
    >>> spread.gaps, spread.busiest, round(spread.busiest_share, 2)
    ((8,), Week(from_day=190, trees=2), 0.67)
    >>> [month for month, trees in spread.months.items() if trees]
    [7, 9]
    """
    of_month = _months_of_days(southern)
    by_week, by_month = [0] * _WEEKS, dict.fromkeys(dict.fromkeys(of_month), 0)
    for picking in pickings:
        days = tuple(_days(picking))
        for week in {min((day - 1) // _WEEK_DAYS, _WEEKS - 1) for day in days}:
            by_week[week] += picking.trees
        for month in {of_month[day - 1] for day in days}:
            by_month[month] += picking.trees
    weeks = tuple(Week(1 + _WEEK_DAYS * place, trees) for place, trees in enumerate(by_week))
    trees = sum(picking.trees for picking in pickings)
    busiest = max(weeks, key=lambda week: week.trees) if trees else None
    share = busiest.trees / trees if busiest else 0.0
    return Spread(weeks, by_month, empty_between(by_month), busiest, share)


def empty_between(months: Mapping[int, int]) -> tuple[int, ...]:
    """The months without picking that lie within the harvest, on from the month that begins it.

    The harvest begins after the longest empty stretch; of several such, after the one that begins latest.

    >>> empty_between({month: month in (6, 7, 9, 12) for month in range(1, 13)})
    (8, 10, 11)
    >>> empty_between({month: month in (1, 2, 11) for month in range(1, 13)})
    (12,)
    """
    order = tuple(months)
    picked = [place for place, month in enumerate(order) if months[month]]
    if not picked:
        return ()
    after = [*picked[1:], picked[0] + _MONTHS]
    first = max(range(len(picked)), key=lambda one: (after[one] - picked[one], one))
    start = after[first] % _MONTHS
    ring = order[start:] + order[:start]
    inside = ring[: _MONTHS - (after[first] - picked[first] - 1)]
    return tuple(month for month in inside if not months[month])


def _days(picking: Picking) -> Iterator[int]:
    length = (picking.to_day - picking.from_day) % _YEAR_DAYS + 1
    return ((picking.from_day - 1 + step) % _YEAR_DAYS + 1 for step in range(length))


@lru_cache(maxsize=2)
def _months_of_days(southern: bool) -> tuple[int, ...]:
    return tuple(season_day(day, southern=southern).month for day in range(1, _YEAR_DAYS + 1))
