"""Day length against printed tables and against an astronomical library (ephem)."""

from __future__ import annotations

import math
from datetime import datetime, timedelta

import ephem
import numpy as np
import pytest

from service.compute.day_length import sun_times
from service.domain.weather import Floats
from tests.published.weather_at_hand import models

SUN = models().sun


def length_h(latitude: float, *days: int) -> Floats:
    """Day length of days of the year."""
    return sun_times(latitude, np.array(days, dtype=float), SUN).length_h


def test_sunrise_and_sunset_are_those_of_the_printed_example() -> None:
    """15 January at 50.4° N, printed in the chillR vignette on hourly temperatures."""
    times = sun_times(50.4, np.array([15.0]), SUN)
    assert times.sunrise_h[0] == pytest.approx(7.766425, abs=1e-5)
    assert times.sunset_h[0] == pytest.approx(16.23357, abs=1e-5)
    assert times.length_h[0] == pytest.approx(8.467149, abs=1e-5)


def test_the_first_days_of_january_are_those_of_the_printed_table() -> None:
    """50.5° N, days 1 to 6, printed in the same vignette."""
    printed = [8.074373, 8.091618, 8.110474, 8.13092, 8.152932, 8.176486]
    assert length_h(50.5, 1, 2, 3, 4, 5, 6) == pytest.approx(printed, abs=1e-5)


@pytest.mark.parametrize(
    ("latitude", "hours"), [(38.54, [9.7508, 14.8612, 9.4731]), (47.45, [8.8474, 15.9651, 8.4475])]
)
def test_both_solstices_and_mid_january_come_out_as_computed_elsewhere(latitude: float, hours: list[float]) -> None:
    """The same equations, computed beforehand by another program."""
    assert length_h(latitude, 15, 172, 355) == pytest.approx(hours, abs=5e-5)


@pytest.mark.parametrize("latitude", [-45.0, -33.9, 0.0, 25.8, 38.54, 47.45, 50.4])
def test_day_length_is_within_five_minutes_of_the_ephemeris(latitude: float) -> None:
    """Sunrise to sunset of the sun's upper edge with 34' of refraction, through the year 2023."""
    days = range(1, 366, 7)
    ours = length_h(latitude, *days)
    theirs = [_ephemeris_length_h(latitude, day) for day in days]
    assert np.abs(ours - np.array(theirs)).max() * 60 < 5.0


def test_the_south_has_the_seasons_of_the_north_half_a_year_away() -> None:
    assert length_h(-40.0, 172)[0] == pytest.approx(length_h(40.0, 355)[0], abs=0.02)


def _ephemeris_length_h(latitude: float, day: int) -> float:
    place = ephem.Observer()
    place.lat, place.lon, place.pressure, place.horizon = math.radians(latitude), 0, 0, "-0:34"
    place.date = datetime(2023, 1, 1) + timedelta(days=day - 1)
    sun = ephem.Sun()
    rises = place.next_rising(sun)
    return float(place.next_setting(sun, start=rises) - rises) * 24
