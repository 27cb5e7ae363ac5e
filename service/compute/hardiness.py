"""Winter cold: the lowest temperature of each year, their mean, and the half zone that the mean falls into."""

from __future__ import annotations

import math

import numpy as np

from service.domain.climate_models import Zones
from service.domain.weather import Floats

_NEARLY = 1e-9  # °F: a limit reached by way of °C must not miss its zone by the last digit


def annual_minima(daily_min_c: Floats) -> Floats:
    """The lowest temperature of each year, one year a row; a year without any reading has none (NaN).

    >>> annual_minima(np.array([[1.0, -3.0, np.nan], [np.nan, np.nan, np.nan]]))
    array([-3., nan])
    """
    lowest: Floats = np.fmin.reduce(daily_min_c, axis=1)
    return lowest


def hardiness_zone(mean_minimum_f: float, zones: Zones) -> str:
    """The half zone of a mean annual minimum (°F); a value on a limit belongs to the warmer one (map of 2023).

    >>> map_of_2023 = Zones(coldest_f=-60, width_f=5, half_zones=26, years_of_map=30)
    >>> [hardiness_zone(minimum, map_of_2023) for minimum in (-10.1, -10, 4.99, 5)]
    ['5b', '6a', '7a', '7b']
    """
    steps = math.floor((mean_minimum_f - zones.coldest_f) / zones.width_f + _NEARLY)
    half = min(max(steps, 0), zones.half_zones - 1)
    return f"{half // 2 + 1}{'b' if half % 2 else 'a'}"
