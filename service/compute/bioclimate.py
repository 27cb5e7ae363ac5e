"""Carries a spring date from one place to another of the same climate: later to the north, to the east and uphill."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Shifts:
    """Days by which spring comes later for each step to the north, to the east and uphill."""

    latitude_days: float
    longitude_days: float
    longitude_deg: float
    altitude_days: float
    altitude_ft: float


@dataclass(frozen=True, slots=True)
class Away:
    """How a place lies to another: degrees to the north and to the east, feet higher; below zero the other way."""

    north_deg: float = 0.0
    east_deg: float = 0.0
    higher_ft: float = 0.0


def spring_shift_days(away: Away, shifts: Shifts) -> float:
    """Days by which spring comes later at the place.

    One degree north and 400 ft higher are four days each (Hopkins 1918, recalled):

    >>> spring_shift_days(Away(north_deg=1, higher_ft=400), Shifts(4, 4, 5, 4, 400))
    8.0
    """
    return (
        away.north_deg * shifts.latitude_days
        + away.east_deg / shifts.longitude_deg * shifts.longitude_days
        + away.higher_ft / shifts.altitude_ft * shifts.altitude_days
    )
