"""Hardiness zones against the limits of the map of 2023 (in °F and °C as republished) and a station's years."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from service.compute.hardiness import annual_minima, hardiness_zone
from service.domain.weather import fahrenheit
from tests.published.weather_at_hand import models, seattle

ZONES = models().zones
NAMES = [f"{number}{half}" for number in range(1, 14) for half in "ab"]


def test_each_half_zone_begins_at_its_limit_and_ends_below_the_next() -> None:
    for place, name in enumerate(NAMES):
        lower_f = -60 + 5 * place
        assert hardiness_zone(lower_f, ZONES) == name
        assert hardiness_zone(lower_f + 4.99, ZONES) == name


@pytest.mark.parametrize(
    ("minimum_f", "zone"),
    [(-60, "1a"), (-55, "1b"), (-10.1, "5b"), (-10, "6a"), (0, "7a"), (4.99, "7a"), (5, "7b"), (30, "10a"),
     (69.9, "13b")],
)  # fmt: skip
def test_published_limits(minimum_f: float, zone: str) -> None:
    assert hardiness_zone(minimum_f, ZONES) == zone


def test_colder_and_warmer_than_the_map_stay_at_its_ends() -> None:
    assert (hardiness_zone(-80, ZONES), hardiness_zone(75, ZONES)) == ("1a", "13b")


@pytest.mark.parametrize(
    ("limit_c", "zone"), [(-17.8, "7a"), (-12.2, "8a"), (-6.7, "9a"), (-1.1, "10a"), (10.0, "12a")]
)
def test_limits_printed_in_celsius_to_a_tenth_are_met(limit_c: float, zone: str) -> None:
    assert hardiness_zone(fahrenheit(limit_c + 0.05), ZONES) == zone
    assert hardiness_zone(fahrenheit(limit_c - 0.05), ZONES) == NAMES[NAMES.index(zone) - 1]


def test_ten_degrees_celsius_is_a_limit_and_not_just_below_it() -> None:
    assert hardiness_zone(fahrenheit(10.0), ZONES) == "12a"


def test_seattle_of_2012_to_2015_by_calendar_years() -> None:
    """Mean 22.91 °F, zone 9a, computed beforehand by another program."""
    low = seattle().min_c
    years = np.full((4, 366), np.nan)
    edges = np.cumsum([0, 366, 365, 365, 365])
    for place, (first, last) in enumerate(pairwise(edges)):
        years[place, : last - first] = low[first:last]
    mean_f = fahrenheit(annual_minima(years).mean())
    assert mean_f == pytest.approx(22.91, abs=0.005)
    assert hardiness_zone(mean_f, ZONES) == "9a"
