"""Sunrise, sunset and the length of the day, in local solar hours."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.domain.climate_models import Sun
from service.domain.weather import Floats

_DAYS_IN_YEAR = 365.0
_DEGREES_PER_HOUR = 15.0


@dataclass(frozen=True, slots=True, eq=False)
class SunTimes:
    """Hours after midnight at which the sun rises and sets on each day, and the hours between."""

    sunrise_h: Floats
    sunset_h: Floats
    length_h: Floats


def sun_times(latitude_deg: float, day_of_year: Floats, sun: Sun) -> SunTimes:
    """When the sun rises and sets at a latitude (degrees, south negative) on days counted from 1 January.

    A day on which the sun does not rise has no length, one on which it does not set has 24 hours (Spencer 1971 with
    the horizon of Almorox and others 2005).

    >>> terms = (0.006918, -0.399912, 0.070257, -0.006758, 0.000907, -0.002697, 0.00148)
    >>> times = sun_times(50.4, np.array([15.0]), Sun(terms, -0.8333, 65))
    >>> times.sunrise_h.round(3), times.length_h.round(3)
    (array([7.766]), array([8.467]))
    """
    declination = _declination(day_of_year, sun.declination)
    latitude = np.radians(latitude_deg)
    above = np.sin(np.radians(sun.horizon_deg)) - np.sin(latitude) * np.sin(declination)
    half_day = np.degrees(np.arccos(np.clip(above / (np.cos(latitude) * np.cos(declination)), -1, 1)))
    half_day_h = half_day / _DEGREES_PER_HOUR
    return SunTimes(12.0 - half_day_h, 12.0 + half_day_h, 2.0 * half_day_h)


def _declination(day_of_year: Floats, terms: tuple[float, ...]) -> Floats:
    turn = 2.0 * np.pi * (day_of_year - 1.0) / _DAYS_IN_YEAR
    total: Floats = np.full_like(turn, terms[0])
    for order in (1, 2, 3):
        total += terms[2 * order - 1] * np.cos(order * turn) + terms[2 * order] * np.sin(order * turn)
    return total
