"""Whether a wet spell met the published conditions for an infection."""

from __future__ import annotations

import numpy as np

from service.domain.infection import InfectionConditions
from service.domain.sick_tree import WetPeriod


def hours_needed(conditions: InfectionConditions, mean_f: float) -> float | None:
    """The hours of wetness needed at a temperature; None where it is too cold or too warm for any infection.

    Apple scab (revised Mills table, MacHardy and Gadoury 1989: 15 hours at 45 °F, 13 at 46 °F):

    >>> scab = InfectionConditions("scab", "apple_scab", "", (), ((45, 15), (46, 13)), ())
    >>> hours_needed(scab, 45.5), hours_needed(scab, 30)
    (14.0, None)
    """
    degrees, hours = zip(*conditions.wet_hours, strict=True)
    if not degrees[0] <= mean_f <= degrees[-1]:
        return None
    return float(np.interp(mean_f, degrees, hours))


def infected_by(period: WetPeriod, conditions: InfectionConditions) -> bool:
    """Whether a wet spell met the conditions; rain that nobody measured is not held against it."""
    if period.stage not in conditions.stages:
        return False
    rain_in = period.rain_in
    if conditions.least_rain_in is not None and rain_in is not None and rain_in < conditions.least_rain_in:
        return False
    needed = hours_needed(conditions, period.mean_f)
    return needed is not None and period.hours >= needed
