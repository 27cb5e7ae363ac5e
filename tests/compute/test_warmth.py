"""The warmest month from hours, days and months."""

from __future__ import annotations

import numpy as np

from service.compute.warmth import warmest_month_c
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans

YEAR = np.datetime64("2013-01-01")
BY_MONTH = (2.0, 3.0, 7.0, 11.0, 15.0, 19.0, 21.0, 20.0, 16.0, 11.0, 6.0, 3.0)
MONTH_OF_DAY = (YEAR + np.arange(365)).astype("datetime64[M]").astype(int) % 12
DAYS = np.array(BY_MONTH)[MONTH_OF_DAY]


def test_days_take_the_middle_of_their_extremes() -> None:
    assert warmest_month_c(DailySeries(YEAR, DAYS - 5, DAYS + 5)) == 21.0


def test_hours_and_days_of_the_same_weather_agree() -> None:
    assert warmest_month_c(HourlySeries(YEAR, np.repeat(DAYS, 24))) == 21.0


def test_gaps_are_left_out_and_a_month_without_readings_leaves_it_unknown() -> None:
    holed = DAYS.copy()
    holed[190:200] = np.nan
    assert warmest_month_c(HourlySeries(YEAR, np.repeat(holed, 24))) == 21.0
    july_gone = np.where(MONTH_OF_DAY == 6, np.nan, DAYS)
    assert warmest_month_c(DailySeries(YEAR, july_gone, july_gone)) is None


def test_high_summer_lies_in_january_in_the_south() -> None:
    only_southern_summer = MonthlyMeans({12: 20.0, 1: 22.5, 2: 22.0})
    assert warmest_month_c(only_southern_summer, southern=True) == 22.5
    assert warmest_month_c(only_southern_summer) is None
