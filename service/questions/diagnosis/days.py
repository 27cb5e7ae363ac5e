"""The temperatures of single days, as a diagnosis reads them from the series of a place."""

from __future__ import annotations

from datetime import date

import numpy as np

from service.domain.weather import DailySeries, Floats, HourlySeries, fahrenheit

_HOURS = 24
Days = tuple[np.datetime64, Floats, Floats]


def daily_f(series: object) -> Days | None:
    """The first day, and the lowest and highest temperature of each day; None where only months are known."""
    if isinstance(series, DailySeries):
        return series.first_day, np.asarray(fahrenheit(series.min_c)), np.asarray(fahrenheit(series.max_c))
    if isinstance(series, HourlySeries):
        hours = np.asarray(fahrenheit(series.temp_c)).reshape(-1, _HOURS)
        return series.first_day, hours.min(axis=1), hours.max(axis=1)
    return None


def between(first_day: np.datetime64, each: Floats, *, since: date, until: date) -> Floats | None:
    """The days from `since` up to, but not with, `until`; None where one of them was not read.

    >>> lows = np.array([30.0, 28.0, 41.0])
    >>> between(np.datetime64("2026-04-01"), lows, since=date(2026, 4, 2), until=date(2026, 4, 4))
    array([28., 41.])
    """
    start = int((np.datetime64(since, "D") - first_day.astype("datetime64[D]")).astype(int))
    end = start + (until - since).days
    found = each[start:end] if 0 <= start < end <= each.size else each[:0]
    return found if found.size and not np.isnan(found).any() else None
