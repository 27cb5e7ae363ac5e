"""Monthly means, of one year or of several; a month that is told more than once is averaged."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.domain.weather import Floats, MonthlyMeans, Reading, Unit, celsius
from service.intake.weather.faults import RowFaults


def monthly_reading(months: Sequence[int], means: Floats, *, unit: Unit, pointers: Sequence[str]) -> Reading:
    """The mean temperature of each calendar month (1-12) that is told; `pointers` say where each row stands."""
    faults = RowFaults("")
    for month, pointer in zip(months, pointers, strict=True):
        if not 1 <= month <= 12:
            faults.add(pointer, "a month is a whole number from 1 to 12")
    read = [place for place in range(len(months)) if not np.isnan(means[place])]
    if not read:
        faults.add("", "there is no row with a month and a temperature")
    faults.stop_if_any()
    by_month: dict[int, list[float]] = {}
    for place in read:
        by_month.setdefault(months[place], []).append(_in_celsius(float(means[place]), unit))
    series = MonthlyMeans({month: sum(values) / len(values) for month, values in sorted(by_month.items())})
    return Reading(series, unit, len(months), len(months) - len(read), len(read) - len(by_month))


def _in_celsius(value: float, unit: Unit) -> float:
    if unit == "f":
        return float(celsius(value))
    return value if unit == "c" else value / 10.0
