"""Puts readings on an unbroken grid of hours or days, whatever order they come in.

Several readings within one clock hour are averaged. A day may be told twice only if both say the same.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

import numpy as np

from service.domain.errors import NotUnderstood
from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats, HourlySeries, Reading, Unit, celsius

_MOST_YEARS = 150
_DAYS_PER_YEAR = 366


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """Moments with one value each, or two (lowest, highest), NaN where there is none; `whole` points at the table."""

    moments: Sequence[datetime]
    values: tuple[Floats, ...]
    unit: Unit
    whole: str

    def __post_init__(self) -> None:
        if not len(self.moments):
            raise NotUnderstood((self.whole, "there is no row with a date and a temperature"))

    @property
    def values_c(self) -> tuple[Floats, ...]:
        """The values in degrees Celsius."""
        if self.unit == "f":
            return tuple(np.asarray(celsius(value)) for value in self.values)
        return self.values if self.unit == "c" else tuple(value / 10.0 for value in self.values)

    @property
    def empty_rows(self) -> int:
        """Rows in which a value is missing."""
        return int(np.count_nonzero(np.isnan(np.stack(self.values)).any(axis=0)))


def hourly_reading(readings: Readings) -> Reading:
    """The readings as an hourly series on whole days."""
    minutes = np.array(readings.moments, dtype="datetime64[m]")
    hours = minutes.astype("datetime64[h]")
    days = _days_between(hours.astype("datetime64[D]"), readings.whole)
    place = ((hours - days[0].astype("datetime64[h]")) / np.timedelta64(1, "h")).astype(np.int64)
    (temp_c,) = readings.values_c
    read = ~np.isnan(temp_c)
    size = days.size * HOURS_PER_DAY
    count = np.bincount(place[read], minlength=size)
    total = np.bincount(place[read], weights=temp_c[read], minlength=size)
    mean = np.divide(total, count, out=np.full(size, np.nan), where=count > 0)
    repeated = minutes.size - np.unique(minutes).size
    _not_one_a_day(hours, days, readings.whole)
    averaged = ("Several readings of one clock hour were averaged.",) if count.max() > 1 else ()
    notes = (*_order_note(minutes), *averaged)
    return Reading(
        HourlySeries(days[0], mean), readings.unit, minutes.size, readings.empty_rows, repeated, notes
    )


def daily_reading(readings: Readings) -> Reading:
    """The readings as a daily series."""
    dates = np.array(readings.moments, dtype="datetime64[D]")
    days = _days_between(dates, readings.whole)
    place = ((dates - days[0]) / np.timedelta64(1, "D")).astype(np.int64)
    extremes = []
    for values in readings.values_c:
        column = np.full(days.size, np.nan)
        read = ~np.isnan(values)
        column[place[read]] = values[read]
        _same_twice(column[place[read]] != values[read], dates[read], readings.whole)
        extremes.append(column)
    repeated = dates.size - np.unique(dates).size
    series = DailySeries(days[0], *extremes)
    return Reading(series, readings.unit, dates.size, readings.empty_rows, repeated, _order_note(dates))


def _days_between(dates: np.ndarray, whole: str) -> np.ndarray:
    first, last = dates.min(), dates.max()
    if (last - first) / np.timedelta64(_DAYS_PER_YEAR, "D") > _MOST_YEARS:
        raise NotUnderstood((whole, f"the dates run from {first} to {last}; at most {_MOST_YEARS} years are read"))
    return np.arange(first, last + np.timedelta64(1, "D"))


def _not_one_a_day(hours: np.ndarray, days: np.ndarray, whole: str) -> None:
    if days.size > 2 and np.unique(hours).size <= days.size:
        raise NotUnderstood((whole, "one temperature a day does not show cold and warmth; give each day's lowest and"
                                    " highest, or each hour"))  # fmt: skip


def _same_twice(differs: np.ndarray, dates: np.ndarray, whole: str) -> None:
    if differs.any():
        raise NotUnderstood((whole, f"{dates[differs][0]} stands twice with different temperatures; keep one"))


def _order_note(moments: np.ndarray) -> tuple[str, ...]:
    if (np.diff(moments) < np.timedelta64(0, "D")).any():
        return ("The rows were not in order of time; they were sorted.",)
    return ()
