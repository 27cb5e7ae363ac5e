"""Winter chill as counts of hours: at or below 45 °F, from 32 to 45 °F, and in the classes of the Utah model.

Each function takes one row of hourly temperatures (°C) for each winter and gives one figure for each. An hour that was
not read (NaN) adds nothing.
"""

from __future__ import annotations

import numpy as np

from service.domain.climate_models import ChillClasses, ChillHours
from service.domain.weather import Flags, Floats, celsius


def chill_hours(hours_c: Floats, limits: ChillHours) -> Floats:
    """Hours between the limits, both included (Weinberger 1950).

    >>> chill_hours(np.array([[celsius(44.9), celsius(45.0), celsius(45.1), np.nan]]), ChillHours(45))
    array([2.])
    """
    cold = _count(hours_c <= celsius(limits.high_f))
    return cold if limits.low_f is None else cold - _count(hours_c < celsius(limits.low_f))


def chill_units(hours_c: Floats, classes: ChillClasses) -> Floats:
    """Units earned and lost by class (Richardson, Seeley and Walker 1974).

    An hour takes the unit of the warmest class and, for each edge that it stays at or below, the step down to the
    class under that edge: the sum needs one count for each edge at which the unit changes.

    >>> chill_units(np.array([[1.4, 1.5, 20.0, np.nan]]), ChillClasses((1.4, 15.9), (0.0, 0.5, -1.0)))
    array([-0.5])
    """
    total = classes.units[-1] * _count(~np.isnan(hours_c))
    for edge_c, below, above in zip(classes.edges_c, classes.units, classes.units[1:], strict=False):
        if below != above:
            total += (below - above) * _count(hours_c <= edge_c)
    return total


def _count(which: Flags) -> Floats:
    return np.array([np.count_nonzero(row) for row in which], dtype=np.float64)
