"""Hourly temperatures from the lowest and highest of each day.

By day the temperature follows a half sine that begins at sunrise; by night it falls from its value at sunset to the
minimum at the next sunrise, fast at first, as ln(1 + t) / ln(1 + N): t hours after sunset in a night of N hours. Both
ends are met exactly. Where a neighbouring day is missing, so are the hours that lean on it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.domain.climate_models import DayCurve
from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats


@dataclass(frozen=True, slots=True, eq=False)
class Daylight:
    """Sunrise and sunset of each day of a series, in local solar hours after midnight."""

    sunrise_h: Floats
    sunset_h: Floats


def hourly_temperatures(days: DailySeries, light: Daylight, curve: DayCurve) -> Floats:
    """The temperature (°C) of every hour from midnight of the first day on (Linvill 1990, with the night told above).

    >>> days = DailySeries(np.datetime64("2020-01-01"), np.array([5.0, 5.0, 5.0]), np.array([15.0, 15.0, 15.0]))
    >>> light = Daylight(np.full(3, 8.0), np.full(3, 16.0))
    >>> hourly_temperatures(days, light, DayCurve(4.0))[24 + 8 : 24 + 16 : 3].round(2)
    array([ 5.  , 12.07, 15.  ])
    """
    hour = np.arange(HOURS_PER_DAY, dtype=np.float64)
    rate = np.pi / (light.sunset_h - light.sunrise_h + curve.sine_beyond_day_h)
    rise = days.max_c - days.min_c
    at_sunset = days.min_c + rise * np.sin(rate * (light.sunset_h - light.sunrise_h))
    by_day = np.sin((hour - light.sunrise_h[:, None]) * rate[:, None]) * rise[:, None] + days.min_c[:, None]
    by_night = _by_night(days, light, at_sunset, hour)
    is_night = (hour <= light.sunrise_h[:, None]) | (hour > light.sunset_h[:, None])
    return np.where(is_night, by_night, by_day).ravel()


def _by_night(days: DailySeries, light: Daylight, at_sunset: Floats, hour: Floats) -> Floats:
    """The fall of the night that each hour would belong to: the one before until noon, the one after from then on."""
    night_h = HOURS_PER_DAY - light.sunset_h[:-1] + light.sunrise_h[1:]
    fall = (days.min_c[1:] - at_sunset[:-1]) / np.log1p(night_h)
    evening = hour >= HOURS_PER_DAY / 2
    since_sunset = np.empty((days.min_c.size, hour.size))
    since_sunset[:, evening] = hour[evening] - light.sunset_h[:, None]
    since_sunset[1:, ~evening] = hour[~evening] + HOURS_PER_DAY - light.sunset_h[:-1, None]
    since_sunset[0, ~evening] = np.nan
    np.maximum(since_sunset, 0.0, out=since_sunset)
    fallen = np.log1p(since_sunset, out=since_sunset)
    fallen[:, evening] *= _with_gap_after(fall)
    fallen[:, ~evening] *= _with_gap_before(fall)
    fallen[:, evening] += at_sunset[:, None]
    fallen[1:, ~evening] += at_sunset[:-1, None]
    return fallen


def _with_gap_after(values: Floats) -> Floats:
    return np.append(values, np.nan)[:, None]


def _with_gap_before(values: Floats) -> Floats:
    return np.insert(values, 0, np.nan)[:, None]
