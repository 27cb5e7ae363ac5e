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
    span = curve.optimum_c - curve.base_c
    rising = np.clip((hours_c - curve.base_c) / span, 0.0, 1.0)
    falling = np.clip((hours_c - curve.optimum_c) / (curve.critical_c - curve.optimum_c), 0.0, 1.0)
    # both cosines meet at the optimum, where the first gives 1 and the second takes nothing away
    heat: Floats = 0.5 * (1.0 - np.cos(np.pi * rising)) - np.sin(0.5 * np.pi * falling)
    total: Floats = curve.stress * span * np.nansum(heat, axis=1)
    return total
