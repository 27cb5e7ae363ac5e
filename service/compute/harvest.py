"""When a cultivar is picked, from the surest statement that there is.

Dates stated for the cultivar come first; then days before or after a cultivar whose dates are known; then the time
at which its ripening class is picked in its crop. Days are numbered through the season as everywhere (see
`service.domain.month_day`): from 1 January in the north and 1 July in the south, so that a number serves both.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from service.domain.crop import Crop
from service.domain.cultivar import Cultivar, HarvestTime
from service.domain.month_day import season_day
from service.domain.provenance import Stated

HarvestBasis = Literal["cultivar_dates", "offset", "ripening_class"]
YEAR_DAYS = 365


@dataclass(frozen=True, slots=True)
class Window:
    """The days from the first to the last picking, both included; a window may run over the end of the count."""

    from_day: int
    to_day: int
    basis: HarvestBasis
    place: str | None
    sources: tuple[str, ...]
    from_memory: bool

    @property
    def days(self) -> tuple[int, ...]:
        """Every day of the window, in order."""
        length = (self.to_day - self.from_day) % YEAR_DAYS + 1
        return tuple(_in_year(self.from_day + step) for step in range(length))


def harvest_window(cultivar: Cultivar, crop: Crop, known: Mapping[str, Cultivar]) -> Window | None:
    """The harvest of a cultivar; `known` finds reference cultivars by what offsets call them. None where unknown."""
    if cultivar.harvest is not None:
        return _window(cultivar.harvest, "cultivar_dates")
    by_reference = _by_reference(cultivar, known)
    if by_reference is not None:
        return by_reference
    stated = crop.harvest_by_season.get(cultivar.ripening.value) if cultivar.ripening else None
    if stated is None or cultivar.ripening is None:
        return None
    return _joined(_window(stated, "ripening_class"), cultivar.ripening)


def _by_reference(cultivar: Cultivar, known: Mapping[str, Cultivar]) -> Window | None:
    """Follows offsets from reference to reference until one has dates; references that go in a circle tell nothing."""
    days, to_days, passed, offsets = 0.0, 0.0, {cultivar.id}, []
    while cultivar.ripening_offset is not None:
        offset = cultivar.ripening_offset.value
        offsets.append(cultivar.ripening_offset)
        days += offset.days
        to_days += offset.days if offset.to_days is None else offset.to_days
        reference = known.get(offset.reference)
        if reference is None or reference.id in passed:
            return None
        if reference.harvest is not None:
            return _joined(shifted(_window(reference.harvest, "offset"), days, to_days), *offsets)
        passed.add(reference.id)
        cultivar = reference
    return None


def shifted(window: Window, days: float, to_days: float | None = None) -> Window:
    """The window moved by a number of days, its end by `to_days` where that is another; half days count as whole.

    A harvest from 1 to 10 August, moved by 20 to 28 days (made-up dates):

    >>> later = shifted(Window(213, 222, "cultivar_dates", None, (), False), 20, 28)
    >>> later.from_day, later.to_day
    (233, 250)
    """
    at_end = days if to_days is None else to_days
    return replace(
        window,
        from_day=_in_year(window.from_day + math.ceil(days)),
        to_day=_in_year(window.to_day + math.ceil(at_end)),
    )


def months_covered(window: Window, *, southern: bool = False) -> tuple[int, ...]:
    """The calendar months in which the fruit is picked, in order of picking.

    Day 200 to day 215 is 19 July to 3 August, and in the southern hemisphere 16 January to 31 January:

    >>> window = Window(200, 215, "cultivar_dates", None, (), False)
    >>> months_covered(window), months_covered(window, southern=True)
    ((7, 8), (1,))
    """
    return tuple(dict.fromkeys(season_day(day, southern=southern).month for day in window.days))


def in_wished_months(window: Window | None, wished: Iterable[int], *, southern: bool = False) -> bool | None:
    """Whether any of the harvest falls into a wished month; None where the harvest, or the wish, is unknown."""
    months = frozenset(wished)
    if window is None or not months:
        return None
    return not months.isdisjoint(months_covered(window, southern=southern))


def days_before_frost(window: Window | None, first_frost_day: int | None) -> int | None:
    """Days from the last picking to the first autumn frost; negative where the frost comes first.

    >>> days_before_frost(Window(280, 290, "cultivar_dates", None, (), False), 283)
    -7
    """
    return None if window is None or first_frost_day is None else first_frost_day - window.to_day


def _in_year(day: int) -> int:
    return (day - 1) % YEAR_DAYS + 1


def _window(stated: Stated[HarvestTime], basis: HarvestBasis) -> Window:
    return Window(
        from_day=_in_year(stated.value.from_day),
        to_day=_in_year(stated.value.to_day),
        basis=basis,
        place=stated.value.place,
        sources=stated.sources,
        from_memory=stated.from_memory,
    )


def _joined(window: Window, *others: Stated[Any]) -> Window:
    """The window with the sources of what led to it."""
    sources = dict.fromkeys((*window.sources, *(source for each in others for source in each.sources)))
    remembered = window.from_memory or any(each.from_memory for each in others)
    return replace(window, sources=tuple(sources), from_memory=remembered)
