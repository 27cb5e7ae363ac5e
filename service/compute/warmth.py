"""How warm the summer is: the mean of the warmest month, from whatever series there is."""

from __future__ import annotations

import warnings
from collections.abc import Mapping

import numpy as np

from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats, HourlySeries, MonthlyMeans, Series

_MIDSUMMER_NORTH, _MIDSUMMER_SOUTH = (6, 7, 8), (12, 1, 2)


def warmest_month_c(series: Series, *, southern: bool = False) -> float | None:
    """The mean of the warmest month in °C; None where a month of high summer is missing.

    >>> warmest_month_c(MonthlyMeans({6: 16.0, 7: 18.5, 8: 18.0}))
    18.5
    >>> warmest_month_c(MonthlyMeans({1: 4.0, 2: 6.0})) is None
    True
    """
    means = series.mean_c if isinstance(series, MonthlyMeans) else _months(_days(series), series.first_day)
    if any(month not in means for month in (_MIDSUMMER_SOUTH if southern else _MIDSUMMER_NORTH)):
        return None
    return max(means.values())


def _days(series: HourlySeries | DailySeries) -> Floats:
    """A mean for each day: of its hours, or of its two extremes as weather services reckon it."""
    if isinstance(series, DailySeries):
        return (series.min_c + series.max_c) / 2
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)  # a day without any reading has no mean, and NaN says so
        return np.asarray(np.nanmean(series.temp_c.reshape(-1, HOURS_PER_DAY), axis=1), dtype=np.float64)


def _months(days_c: Floats, first_day: np.datetime64) -> Mapping[int, float]:
    dates = first_day + np.arange(days_c.size)
    months = dates.astype("datetime64[M]").astype(int) % 12 + 1
    read = ~np.isnan(days_c)
    of_month = {month: days_c[read & (months == month)] for month in range(1, 13)}
    return {month: float(days.mean()) for month, days in of_month.items() if days.size}
