"""Chill against tables and figures from outside.

Class tables: Richardson, Seeley and Walker (1974) as coded in the R packages chillR and fruclimadapt. The figures for
the sine, the blocks and the Greensboro file were computed beforehand by two independent programs of another author,
where said also by chillR's own code; they agree to eight digits.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.compute.chill import chill_hours, chill_units
from service.compute.dynamic_model import chill_portions
from service.domain.weather import celsius
from tests.published.weather_at_hand import (
    JANUARY_AND_FEBRUARY_H,
    blocks_c,
    greensboro_c,
    models,
    seattle_normals_f,
    wave_c,
)

MODELS = models()


def one(value: float) -> np.ndarray:
    """One hour of one winter."""
    return np.array([[value]])


def greensboro() -> np.ndarray:
    """January and February in Greensboro."""
    return greensboro_c()[None, :JANUARY_AND_FEBRUARY_H]


@pytest.mark.parametrize(("temp_f", "hours"), [(44.9, 1), (45.0, 1), (45.1, 0), (-10.0, 1)])
def test_an_hour_at_or_below_45_f_counts(temp_f: float, hours: int) -> None:
    assert chill_hours(one(celsius(temp_f)), MODELS.hours_at_or_below_45f)[0] == hours


@pytest.mark.parametrize(("temp_f", "hours"), [(31.9, 0), (32.0, 1), (45.0, 1), (45.1, 0)])
def test_an_hour_from_32_to_45_f_counts(temp_f: float, hours: int) -> None:
    assert chill_hours(one(celsius(temp_f)), MODELS.hours_32_45f)[0] == hours


@pytest.mark.parametrize(
    ("temp_c", "units"),
    [(1.4, 0), (1.5, 0.5), (2.5, 1), (9.1, 1), (9.2, 0.5), (12.5, 0), (16.0, -0.5), (18.1, -1), (-20.0, 0)],
)
def test_the_utah_classes_are_those_of_the_metric_table(temp_c: float, units: float) -> None:
    assert chill_units(one(temp_c), MODELS.utah)[0] == units


def test_warm_hours_take_nothing_from_positive_utah_units() -> None:
    day = blocks_c((12, 6.0), (12, 20.0), days=1)
    assert chill_units(day, MODELS.utah)[0] == 0
    assert chill_units(day, MODELS.positive_utah)[0] == 12


def test_every_count_of_a_sixty_day_sine() -> None:
    wave = wave_c()
    assert chill_hours(wave, MODELS.hours_at_or_below_45f)[0] == 780
    assert chill_hours(wave, MODELS.hours_32_45f)[0] == 600
    assert chill_units(wave, MODELS.utah)[0] == 540
    assert chill_units(wave, MODELS.positive_utah)[0] == 540
    assert chill_portions(wave, MODELS.portions)[0] == pytest.approx(33.0734, abs=5e-5)


def test_every_count_of_greensboro_in_january_and_february() -> None:
    """32-45 °F, Utah and portions were also counted by chillR's code."""
    assert chill_hours(greensboro(), MODELS.hours_at_or_below_45f)[0] == 1025
    assert chill_hours(greensboro(), MODELS.hours_32_45f)[0] == 455
    assert chill_units(greensboro(), MODELS.utah)[0] == 421.5
    assert chill_units(greensboro(), MODELS.positive_utah)[0] == 476.5
    assert chill_portions(greensboro(), MODELS.portions)[0] == pytest.approx(31.7658, abs=5e-5)


def test_readings_of_exactly_45_f_count_in_the_hourly_normals_of_seattle() -> None:
    """Counted in °C up to 7.2 °C the same hours are 1177, since 45 °F is 7.22 °C."""
    normals = np.asarray(celsius(seattle_normals_f()[:JANUARY_AND_FEBRUARY_H]))[None, :]
    assert chill_hours(normals, MODELS.hours_32_45f)[0] == 1184
    assert np.count_nonzero((normals >= 0) & (normals <= 7.2)) == 1177


@pytest.mark.parametrize(
    ("temp_c", "portions"),
    [(-2, 0.242), (-1, 1.1431), (0, 4.8574), (1, 15.3291), (2, 26.3712), (4, 29.8494), (6, 34.2042),
     (7, 34.8513), (8, 34.5684), (10, 32.4355), (12, 25.0015), (13, 0.0), (14, 0.0)],
)  # fmt: skip
def test_portions_of_a_thousand_hours_at_one_temperature(temp_c: float, portions: float) -> None:
    """Closed form and a Runge-Kutta integration of Fishman's equation agree on these to four places."""
    assert chill_portions(np.full((1, 1000), float(temp_c)), MODELS.portions)[0] == pytest.approx(portions, abs=6e-5)


@pytest.mark.parametrize(
    ("temp_c", "hour"),
    [(-2, 36), (-1, 35), (0, 34), (1, 32), (2, 31), (4, 30), (6, 29), (7, 29), (8, 29), (10, 31), (12, 39)],
)  # fmt: skip
def test_the_first_portion_comes_with_this_hour(temp_c: float, hour: int) -> None:
    short, long = (np.full((1, hours), float(temp_c)) for hours in (hour - 1, hour))
    assert chill_portions(short, MODELS.portions)[0] == 0.0
    assert chill_portions(long, MODELS.portions)[0] > 0.0


@pytest.mark.parametrize(
    ("warm", "portions"), [((8, 15.0), 21.3977), ((8, 20.0), 14.6445), ((8, 24.0), 0.0), ((12, 10.0), 23.7533)]
)
def test_warm_hours_undo_chill_or_add_to_it(warm: tuple[int, float], portions: float) -> None:
    days = blocks_c((24 - warm[0], 6.0), warm)
    assert chill_portions(days, MODELS.portions)[0] == pytest.approx(portions, abs=6e-5)
