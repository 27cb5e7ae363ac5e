"""Temperatures in the wrong unit and latitudes on the wrong side are noticed, right ones pass."""

from __future__ import annotations

import numpy as np
import pytest

from service.domain.errors import NotUnderstood
from service.domain.weather import DailySeries, Floats, HourlySeries, MonthlyMeans, Reading, Unit, celsius, fahrenheit
from service.intake.weather.plausible import refuse_wrong_unit
from tests.published.weather_at_hand import greensboro_winter, models, seattle

BOUNDS = models().plausible
JANUARY, YEAR_DAYS = np.datetime64("2013-01-01"), 365


def year(coldest_c: float, warmest_c: float) -> Floats:
    """Daily maxima of a northern year, coldest in mid January."""
    wave = np.cos(2 * np.pi * (np.arange(YEAR_DAYS) - 15) / YEAR_DAYS)
    middle: Floats = (coldest_c + warmest_c) / 2 - (warmest_c - coldest_c) / 2 * wave
    return middle


def said(high: Floats, unit: Unit) -> Reading:
    """Days whose figures are taken to be in a unit; nights are ten units cooler."""
    low = high - 10
    if unit == "f":
        low, high = np.asarray(celsius(low)), np.asarray(celsius(high))
    elif unit == "tenths_c":
        low, high = low / 10, high / 10
    return Reading(DailySeries(JANUARY, low, high), unit, high.size)


def refusal(reading: Reading, latitude: float) -> tuple[str, str]:
    with pytest.raises(NotUnderstood) as found:
        refuse_wrong_unit(reading, latitude, BOUNDS)
    return found.value.faults[0]


@pytest.mark.parametrize(
    ("latitude", "coldest_c", "warmest_c"),
    [(47.5, 8, 25), (36.1, 9, 31), (25.8, 24, 32), (33.4, 19, 41), (45.0, -5, 28), (61.2, -5, 18), (1.3, 30, 32)],
)
def test_real_kinds_of_climate_pass_in_either_unit(latitude: float, coldest_c: float, warmest_c: float) -> None:
    high = year(coldest_c, warmest_c)
    refuse_wrong_unit(said(high, "c"), latitude, BOUNDS)
    refuse_wrong_unit(said(np.asarray(fahrenheit(high)), "f"), latitude, BOUNDS)
    refuse_wrong_unit(said(high * 10, "tenths_c"), latitude, BOUNDS)


@pytest.mark.parametrize(
    ("latitude", "coldest_c", "warmest_c"), [(47.5, 8, 25), (36.1, 9, 31), (33.4, 19, 41), (45.0, -5, 28)]
)
@pytest.mark.parametrize(("truth", "taken_as"), [("c", "f"), ("f", "c"), ("f", "tenths_c"), ("tenths_c", "f"),
                                                 ("tenths_c", "c"), ("c", "tenths_c")])  # fmt: skip
def test_a_year_in_any_wrong_unit_is_refused(
    latitude: float, coldest_c: float, warmest_c: float, truth: Unit, taken_as: Unit
) -> None:
    high = year(coldest_c, warmest_c)
    figures = {"c": high, "f": np.asarray(fahrenheit(high)), "tenths_c": high * 10}[truth]
    pointer, sentence = refusal(said(figures, taken_as), latitude)
    assert pointer == ""
    assert "say which" in sentence


def test_a_july_of_12_f_is_refused_by_name() -> None:
    assert "July" in refusal(said(year(-20, 12), "f"), 40.0)[1]


def test_a_january_of_38_c_is_refused() -> None:
    january = Reading(DailySeries(JANUARY, np.full(31, 28.0), np.full(31, 38.0)), "c", 31)
    assert "January" in refusal(january, 36.0)[1]


def test_a_single_day_of_july_is_enough_to_notice_that_12_f_is_none_of_its_highs() -> None:
    day = Reading(DailySeries(np.datetime64("2013-07-04"), np.array([-16.7]), np.array([celsius(12.0)])), "f", 1)
    pointer, sentence = refusal(day, 47.5)
    assert pointer == ""
    assert "July would be 12.0 °F" in sentence


def test_a_single_hour_of_january_is_enough_to_notice_that_38_is_no_celsius() -> None:
    hours = np.full(24, np.nan)
    hours[5] = 38.0
    assert "January would be 38.0 °C" in refusal(Reading(HourlySeries(JANUARY, hours), "c", 1), 47.5)[1]


@pytest.mark.parametrize(("day", "high_c"), [("2013-07-04", 3.0), ("2013-01-04", 24.0), ("2013-01-04", -30.0)])
def test_a_few_odd_days_of_the_right_unit_pass(day: str, high_c: float) -> None:
    few = Reading(DailySeries(np.datetime64(day), np.full(5, high_c - 10), np.full(5, high_c)), "c", 5)
    refuse_wrong_unit(few, 47.5, BOUNDS)


def test_a_cold_day_of_july_beside_a_warm_one_of_january_does_not_turn_the_globe_over() -> None:
    high = np.full(200, np.nan)
    high[3], high[190] = 15.0, 10.0
    refuse_wrong_unit(Reading(DailySeries(JANUARY, high - 8, high), "c", 2), 40.0, BOUNDS)


def test_real_files_pass() -> None:
    refuse_wrong_unit(Reading(seattle(), "c", 0), 47.45, BOUNDS)
    refuse_wrong_unit(Reading(greensboro_winter(), "c", 0), 36.1, BOUNDS)


def test_a_northern_year_at_a_southern_latitude_is_refused_at_the_latitude() -> None:
    pointer, sentence = refusal(Reading(seattle(), "c", 0), -47.45)
    assert pointer == "/latitude"
    assert "latitudes in the south are negative" in sentence


def test_one_slip_in_a_long_series_is_told_with_its_day() -> None:
    high = year(5, 25)
    high[99] = 99.0
    sentence = refusal(Reading(DailySeries(JANUARY, high - 10, high), "c", YEAR_DAYS), 45.0)[1]
    assert "99.0 °C on 2013-04-10" in sentence


def test_a_series_of_gaps_alone_is_refused() -> None:
    empty = Reading(HourlySeries(JANUARY, np.full(48, np.nan)), "c", 48)
    assert "no temperature" in refusal(empty, 45.0)[1]


@pytest.mark.parametrize(("mean_c", "unit"), [(120.0, "c"), (-10.0, "f")])
def test_monthly_means_in_a_wrong_unit_are_refused(mean_c: float, unit: Unit) -> None:
    refusal(Reading(MonthlyMeans({1: mean_c, 7: mean_c + 1}), unit, 2), 36.0)
