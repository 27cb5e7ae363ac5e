"""Hourly temperatures from daily extremes, against printed hours and against a station.

The hours of 1 January 1998 are printed in the chillR vignette on hourly temperatures (evening, where that code and ours
use the same night). The hours after midnight and those of a whole day were computed beforehand by two independent
programs for the night curve that is used here.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.domain.weather import DailySeries
from service.questions.climate_chill import hours_of_days
from tests.published.weather_at_hand import GREENSBORO_LATITUDE, greensboro_c, models


def test_the_printed_evening_is_met() -> None:
    days = DailySeries(np.datetime64("1998-01-01"), np.array([5.1, 5.0]), np.array([8.2, 9.1]))
    hours = hours_of_days(days, 50.4, models()).temp_c
    assert hours[19:24] == pytest.approx([6.424223, 6.203183, 6.022917, 5.870701, 5.738969], abs=1e-6)
    assert hours[24:30] == pytest.approx([5.622856, 5.519048, 5.425185, 5.339527, 5.260755, 5.187842], abs=1e-6)


def test_a_whole_day_between_like_days_is_met() -> None:
    days = DailySeries(np.datetime64("2001-01-14"), np.full(3, 5.0), np.full(3, 15.0))
    expected = [
        6.8297, 6.4925, 6.1903, 5.9166, 5.6665, 5.4361, 5.2227, 5.0238, 6.9867, 9.1548, 11.1069, 12.7417,
        13.9741, 14.7401, 15.0, 14.7401, 13.9741, 12.5773, 10.7278, 9.6065, 8.7992, 8.1681, 7.6498, 7.2102,
    ]  # fmt: skip
    assert hours_of_days(days, 38.54, models()).temp_c[24:48] == pytest.approx(expected, abs=6e-5)


def test_a_year_of_a_station_is_rebuilt_to_within_two_degrees() -> None:
    """From the daily extremes of Greensboro the root mean square error was found to be 1.85 °C elsewhere."""
    hours = greensboro_c()
    days = hours.reshape(-1, 24)
    extremes = DailySeries(np.datetime64("2013-01-01"), days.min(axis=1), days.max(axis=1))
    error = hours_of_days(extremes, GREENSBORO_LATITUDE, models()).temp_c - hours
    assert np.sqrt(np.nanmean(error**2)) == pytest.approx(1.85, abs=0.02)


def test_hours_that_lean_on_a_missing_day_are_missing() -> None:
    days = DailySeries(np.datetime64("2001-01-14"), np.array([5.0, np.nan, 5.0]), np.array([15.0, np.nan, 15.0]))
    missing = np.isnan(hours_of_days(days, 38.54, models()).temp_c)
    assert missing[:8].all()
    assert not missing[8:17].any()
    assert missing[17:56].all()
    assert not missing[56:65].any()
