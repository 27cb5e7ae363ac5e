"""Heat of single hours, as buds and young fruit answer to it."""

from __future__ import annotations

import numpy as np

from service.domain.climate_models import HeatCurve
from service.domain.weather import Floats


def growing_degree_hours(hours_c: Floats, curve: HeatCurve) -> Floats:
    """The heat of each row of hours, in °C hours (Anderson, Richardson and Kesner 1986); an hour not read adds nothing.

    >>> growing_degree_hours(np.array([[15.0, 4.0, 36.0, np.nan]]), HeatCurve(4, 25, 36, 1)).round(4)
    array([11.2847])
    """
    return np.array([_heat_of(row[~np.isnan(row)], curve) for row in hours_c], dtype=np.float64)


def _heat_of(hours_c: Floats, curve: HeatCurve) -> float:
    """The heat of one row. (1 - cos 2a) / 2 is sin² a, so one sine serves both sides of the optimum."""
    span = curve.optimum_c - curve.base_c
    warm = hours_c[(hours_c > curve.base_c) & (hours_c < curve.critical_c)]
    rising = warm <= curve.optimum_c
    climb = np.sin((warm[rising] - curve.base_c) * (0.5 * np.pi / span))
    fall = np.sin((warm[~rising] - curve.optimum_c) * (0.5 * np.pi / (curve.critical_c - curve.optimum_c)))
    return float(curve.stress * span * (np.dot(climb, climb) + fall.size - fall.sum()))
