"""Chill hours guessed from monthly means, where nothing better is known. An estimate, and known to err."""

from __future__ import annotations

from collections.abc import Mapping

from service.domain.climate_models import ChillLine

_MONTHS = 12


def months_of(line: ChillLine, *, midwinter: int) -> tuple[int, ...]:
    """The months (1-12) whose mean a line takes, with midwinter's month first.

    >>> months_of(ChillLine("December and January", 4280, -68.8, 1), midwinter=1)
    (1, 12)
    """
    return tuple((midwinter - 1 - back) % _MONTHS + 1 for back in range(line.months_before + 1))


def mean_of(means: Mapping[int, float], months: tuple[int, ...]) -> float | None:
    """The mean over months, or None where one of them is not known.

    >>> mean_of({1: 48.0, 12: 52.0}, (1, 12)), mean_of({1: 48.0}, (1, 12))
    (50.0, None)
    """
    if any(month not in means for month in months):
        return None
    return sum(means[month] for month in months) / len(months)


def chill_from_mean(mean_f: float, line: ChillLine) -> float:
    """Hours at or below 45 °F that the line gives for a mean temperature (°F), never below none.

    >>> [chill_from_mean(mean_f, ChillLine("January", 3547, -54, 0)) for mean_f in (50.0, 70.0)]
    [847.0, 0.0]
    """
    return max(0.0, line.intercept_hours + line.hours_per_f * mean_f)
