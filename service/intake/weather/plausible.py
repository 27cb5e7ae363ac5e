"""Notices temperatures that cannot be in the unit that they are said to be in, and a latitude on the wrong side.

A summer whose days reach 25 "°F", a midwinter of 38 "°C", 256 degrees of any kind: each is refused with the unit that
it looks like. The bounds stand in rules/climate.yaml.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.domain.climate_models import Midwinter, Plausible
from service.domain.errors import NotUnderstood
from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats, HourlySeries, MonthlyMeans, Reading, Unit
from service.domain.weather import fahrenheit as to_fahrenheit

_UNIT_NAMES: dict[Unit, str] = {"f": "°F", "c": "°C", "tenths_c": "tenths of °C"}
_MONTH_NAMES = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_SUMMER_NORTH, _WINTER_NORTH = (7, 6, 8), (1, 12, 2)
_STRAY_SHARE = 0.005


@dataclass(frozen=True, slots=True)
class _Told:
    """What was said of the temperatures, the bounds that they are held against, and where a fault is pointed at."""

    unit: Unit
    latitude: float
    bounds: Plausible
    whole: str


@dataclass(frozen=True, slots=True)
class _High:
    """The mean daily maximum of a month, and how far that mean may be off for want of days."""

    mean_c: float
    off_by_c: float = 0.0


def refuse_wrong_unit(reading: Reading, latitude: float, bounds: Plausible, *, whole: str = "") -> None:
    """Raise NotUnderstood at `whole` when the temperatures cannot be what they are said to be."""
    series, told = reading.series, _Told(reading.unit, latitude, bounds, whole)
    if isinstance(series, MonthlyMeans):
        _refuse_extremes(np.array(list(series.mean_c.values())), told)
        _refuse_seasons({month: _High(mean_c) for month, mean_c in series.mean_c.items()}, told)
        return
    low_c, high_c = _daily_extremes(series)
    if np.isnan(high_c).all():
        raise NotUnderstood((whole, "there is no temperature in these rows"))
    _refuse_strays(low_c, high_c, series.first_day, told)
    _refuse_extremes(np.concatenate((low_c, high_c)), told)
    _refuse_seasons(_monthly(high_c, series.first_day, bounds), told)


def _daily_extremes(series: HourlySeries | DailySeries) -> tuple[Floats, Floats]:
    if isinstance(series, DailySeries):
        return series.min_c, series.max_c
    days = series.temp_c.reshape(-1, HOURS_PER_DAY)
    return np.fmin.reduce(days, axis=1), np.fmax.reduce(days, axis=1)


def _monthly(high_c: Floats, first_day: np.datetime64, bounds: Plausible) -> dict[int, _High]:
    """The mean daily maximum of each calendar month of which any day was read."""
    months = (first_day + np.arange(high_c.size)).astype("datetime64[M]").astype(np.int64) % 12
    read = ~np.isnan(high_c)
    count = np.bincount(months[read], minlength=12)
    total = np.bincount(months[read], weights=high_c[read], minlength=12)
    off_by_c = np.where(count < bounds.days_of_a_month, bounds.few_days_c, 0.0)
    return {
        month + 1: _High(float(total[month] / count[month]), float(off_by_c[month]))
        for month in range(12)
        if count[month]
    }


def _refuse_strays(low_c: Floats, high_c: Floats, first_day: np.datetime64, told: _Told) -> None:
    """A few days beyond all bounds in a long series are slips, not another unit."""
    bounds = told.bounds
    outside = np.flatnonzero((low_c < bounds.lowest_c) | (high_c > bounds.highest_c))
    if not outside.size or outside.size > _STRAY_SHARE * low_c.size:
        return
    day = first_day + np.timedelta64(int(outside[0]), "D")
    value = float(low_c[outside[0]] if low_c[outside[0]] < bounds.lowest_c else high_c[outside[0]])
    fault = f"{_shown(value, told.unit)} on {day} is no temperature of the air; mend it or leave it out"
    more = "" if outside.size == 1 else f", and {outside.size - 1} more days like it"
    raise NotUnderstood((told.whole, fault + more))


def _refuse_extremes(values_c: Floats, told: _Told) -> None:
    for value in (float(np.nanmin(values_c)), float(np.nanmax(values_c))):
        if not told.bounds.lowest_c <= value <= told.bounds.highest_c:
            fault = f"{_shown(value, told.unit)} is no temperature of the air; {_advice(told.unit)}"
            raise NotUnderstood((told.whole, fault))


def _refuse_seasons(highs: dict[int, _High], told: _Told) -> None:
    bounds, latitude = told.bounds, told.latitude
    summer, winter = (_SUMMER_NORTH, _WINTER_NORTH) if latitude >= 0 else (_WINTER_NORTH, _SUMMER_NORTH)
    warm, cold = _best_known(summer, highs), _best_known(winter, highs)
    if warm and cold and abs(latitude) > bounds.seasons_from_latitude_deg and _surely_colder(highs[warm], highs[cold]):
        raise NotUnderstood(("/latitude", _wrong_side(warm, cold)))
    if warm and highs[warm].mean_c < bounds.summer_mean_maximum_c - highs[warm].off_by_c:
        raise NotUnderstood((told.whole, _season_fault(warm, highs[warm].mean_c, told.unit)))
    if cold and not _within(bounds.midwinter_at(latitude), highs[cold]):
        raise NotUnderstood((told.whole, _season_fault(cold, highs[cold].mean_c, told.unit)))


def _best_known(months: tuple[int, ...], highs: dict[int, _High]) -> int | None:
    """The first month that was read far enough, or else the first that was read at all."""
    return min((month for month in months if month in highs), key=lambda month: highs[month].off_by_c, default=None)


def _surely_colder(one: _High, other: _High) -> bool:
    return one.mean_c + one.off_by_c + other.off_by_c < other.mean_c


def _within(midwinter: Midwinter, high: _High) -> bool:
    return midwinter.lowest_c - high.off_by_c <= high.mean_c <= midwinter.highest_c + high.off_by_c


def _wrong_side(warm: int, cold: int) -> str:
    return (
        f"{_MONTH_NAMES[warm - 1]} is colder here than {_MONTH_NAMES[cold - 1]}, so the place lies on the other side of"
        " the equator; latitudes in the south are negative"
    )


def _season_fault(month: int, mean_c: float, unit: Unit) -> str:
    return (
        f"the mean high of {_MONTH_NAMES[month - 1]} would be {_shown(mean_c, unit)}, which does not go with this"
        f" latitude; {_advice(unit)}"
    )


def _shown(value_c: float, unit: Unit) -> str:
    if unit == "f":
        return f"{float(to_fahrenheit(value_c)):.1f} °F"
    return f"{value_c:.1f} °C" if unit == "c" else f"{value_c * 10:.0f} tenths of °C"


def _advice(unit: Unit) -> str:
    others = [name for key, name in _UNIT_NAMES.items() if key != unit]
    return f"the figures look as if they were not in {_UNIT_NAMES[unit]} but in {' or '.join(others)}; say which"
