"""What a tree drinks: reference evapotranspiration from temperatures, and gallons from it and the crown.

The equations are those of FAO-56 (21 to 25 for the sun above the air, 52 for Hargreaves and Samani); their constants
stand in rules/climate.yaml.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from service.domain.climate_models import Evapotranspiration
from service.domain.units import GALLON_L, INCH_CM, SQUARE_FOOT_M2
from service.domain.weather import HOURS_PER_DAY, DailySeries, Floats, HourlySeries, Series

_YEAR_DAYS = 365
_MINUTES_A_DAY = 24 * 60
_LITRES_PER_FOOT_INCH = SQUARE_FOOT_M2 * INCH_CM * 10  # one inch of water on one square foot


@dataclass(frozen=True, slots=True)
class CoefficientCurve:
    """Water use against a reference lawn through the season, and the days that each part of it lasts."""

    initial: float
    mid: float
    end: float
    initial_days: float
    development_days: float
    mid_days: float
    late_days: float

    def at(self, day: float) -> float | None:
        """The coefficient so many days after leafing out; None before it and after leaves have fallen.

        Apples over bare ground (FAO-56, tables 11 and 12), at leafing out, on the way up, in summer and at the end:

        >>> curve = CoefficientCurve(0.45, 0.95, 0.7, 20, 70, 120, 60)
        >>> [round(curve.at(day), 2) for day in (0, 55, 150, 270)]
        [0.45, 0.7, 0.95, 0.7]
        """
        lengths = (self.initial_days, self.development_days, self.mid_days, self.late_days)
        edges = [0.0, *np.cumsum(lengths)]
        if not 0 <= day <= edges[-1]:
            return None
        return float(np.interp(day, edges, (self.initial, self.initial, self.mid, self.mid, self.end)))


def sun_above_mm(latitude_deg: float, day_of_year: int, model: Evapotranspiration) -> float:
    """Radiation of the sun above the air as mm of water evaporated in a day (FAO-56 equation 21)."""
    latitude, turn = math.radians(latitude_deg), 2 * math.pi * day_of_year / _YEAR_DAYS
    distance = 1 + model.distance * math.cos(turn)
    declination = model.declination_rad * math.sin(turn - model.phase_rad)
    sunset = math.acos(min(1.0, max(-1.0, -math.tan(latitude) * math.tan(declination))))
    height = sunset * math.sin(latitude) * math.sin(declination)
    height += math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    radiation_mj = _MINUTES_A_DAY / math.pi * model.solar_constant_mj * distance * height
    return max(0.0, radiation_mj * model.mm_per_mj)


def hargreaves_mm(min_c: float, max_c: float, *, sun_mm: float, model: Evapotranspiration) -> float:
    """Reference evapotranspiration in mm a day from the extremes of a day (FAO-56 equation 52)."""
    spread = max(0.0, max_c - min_c)
    return max(0.0, model.coefficient * ((min_c + max_c) / 2 + model.offset_c) * math.sqrt(spread) * sun_mm)


def monthly_extremes_c(series: Series) -> Mapping[int, tuple[float, float]]:
    """The mean lowest and mean highest temperature of each month that a series of days or hours holds."""
    if not isinstance(series, HourlySeries | DailySeries):
        return {}
    lows, highs = _extremes(series)
    dates = series.first_day + np.arange(lows.size)
    months = dates.astype("datetime64[M]").astype(int) % 12 + 1
    read = ~(np.isnan(lows) | np.isnan(highs))
    found = {}
    for month in range(1, 13):
        chosen = read & (months == month)
        if chosen.any():
            found[month] = (float(lows[chosen].mean()), float(highs[chosen].mean()))
    return found


def _extremes(series: HourlySeries | DailySeries) -> tuple[Floats, Floats]:
    """A day that was not read in full has no extremes."""
    if isinstance(series, DailySeries):
        return series.min_c, series.max_c
    days = series.temp_c.reshape(-1, HOURS_PER_DAY)
    return days.min(axis=1), days.max(axis=1)


@dataclass(frozen=True, slots=True)
class Crown:
    """What turns evapotranspiration into gallons: width of the crown, efficiency, and times for a small tree."""

    width_ft: float
    efficiency: float
    times: float = 1.0


def gallons_a_day(et0_in: float, coefficient: float, crown: Crown) -> float:
    """Gallons that a tree draws on a day.

    A tree of 10 square feet at 0.2 in and 2.5 times draws 3.1 gallons (the worked sheet of a county adviser):

    >>> ten_square_feet = (10 / (math.pi / 4)) ** 0.5
    >>> round(gallons_a_day(0.2, 1.0, Crown(ten_square_feet, 1.0, 2.5)), 1)
    3.1
    """
    square_feet = math.pi / 4 * crown.width_ft**2
    litres = square_feet * _LITRES_PER_FOOT_INCH * et0_in * coefficient
    return litres / GALLON_L * crown.times / crown.efficiency


def inches(millimetres: float) -> float:
    """Inches of water.

    >>> inches(25.4)
    1.0
    """
    return millimetres / (INCH_CM * 10)
