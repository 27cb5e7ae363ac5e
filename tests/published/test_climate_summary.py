"""Whole summaries of real weather against figures from outside.

The counts of Seattle's winter 2012-13 and the heat of its April were computed beforehand by two independent programs;
Utah units and portions also by chillR's code (2200 units, 89.9939779734 portions). What extension says of Greensboro:

- NC State Extension, Chilling Requirements of Selected Peach Varieties: the state usually gets more than 1,000 hours of
  chill.
- NC State Extension, average last spring frosts of selected counties: Greensboro airport 11 April, standard deviation
  8 days.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.compute.heat import growing_degree_hours
from service.domain.climate import ClimateSummary, WinterWindow
from service.domain.month_day import MonthDay, day_of_season
from service.domain.weather import MonthlyMeans, Reading, Series, celsius
from service.questions.climate import ClimateQuestion, summarise_climate
from service.questions.climate_chill import hours_of_days
from tests.published.weather_at_hand import (
    GREENSBORO_LATITUDE,
    SEATTLE_LATITUDE,
    greensboro_winter,
    models,
    seattle,
)

GREENSBORO_LAST_FROST, DEVIATION_DAYS = MonthDay(4, 11), 8


def summary_of(series: Series, latitude: float) -> ClimateSummary:
    return summarise_climate(ClimateQuestion(latitude, Reading(series, "c", 0)), models())


def test_the_winter_of_2012_in_seattle_is_counted_as_elsewhere() -> None:
    winters = {winter.label: winter.chill for winter in summary_of(seattle(), SEATTLE_LATITUDE).winters}
    chill = winters["2012-13"]
    assert (chill.chill_hours, chill.chill_hours_32_45, chill.utah_units) == (1971, 1763, 2200.0)
    assert chill.chill_portions == pytest.approx(89.9939779734, abs=1e-9)


def test_april_2013_in_seattle_is_as_warm_as_counted_elsewhere() -> None:
    hours = hours_of_days(seattle(), SEATTLE_LATITUDE, models())
    start = int((np.datetime64("2013-04-01") - hours.first_day) / np.timedelta64(1, "h"))
    heat = growing_degree_hours(hours.temp_c[None, start : start + 30 * 24], models().heat)
    assert heat[0] == pytest.approx(3774.28, abs=0.01)


def test_only_the_three_whole_winters_of_seattle_make_its_safe_chill() -> None:
    summary = summary_of(seattle(), SEATTLE_LATITUDE)
    assert [winter.label for winter in summary.counted_winters] == ["2012-13", "2013-14", "2014-15"]
    assert summary.safe_chill is not None
    assert summary.safe_chill.winters == 3
    assert summary.safe_chill_hours == pytest.approx(np.quantile([1971, 1718, 1284], 0.1))
    assert any("rests on 3 winters" in warning for warning in summary.warnings)


def test_seattle_stands_in_zone_9a_and_its_winters_never_fail_an_apple() -> None:
    """The map of 2023 has the city in 9a; apples in the extension tables ask for at most 1,200 hours or so."""
    summary = summary_of(seattle(), SEATTLE_LATITUDE)
    assert summary.hardiness_zone == "9a"
    assert summary.safe_chill_hours is not None
    assert summary.safe_chill_hours > 1200


def test_greensboro_gets_more_than_a_thousand_hours_of_chill() -> None:
    winter = summary_of(greensboro_winter(), GREENSBORO_LATITUDE).winters[0]
    assert winter.coverage == 1.0
    assert winter.chill_hours > 1000
    assert winter.chill.chill_hours_32_45 > 1000


def test_greensboros_last_frost_is_near_the_date_that_extension_tells() -> None:
    found = summary_of(greensboro_winter(), GREENSBORO_LATITUDE).last_spring_frost
    assert found is not None
    assert abs(day_of_season(found) - day_of_season(GREENSBORO_LAST_FROST)) <= 2 * DEVIATION_DAYS


@pytest.mark.parametrize(
    ("means_f", "hours"),
    [({1: 50.0}, 847.0), ({1: 50.0, 12: 50.0}, 840.0), ({1: 65.7}, 0.0), ({1: 62.3, 12: 62.3}, 0.0)],
)
def test_monthly_means_give_the_hours_of_the_printed_lines(means_f: dict[int, float], hours: float) -> None:
    """The lines are quoted as those of Texas A&M Horticulture; they reach zero at 65.69 and 62.21 °F."""
    means = MonthlyMeans({month: float(celsius(mean)) for month, mean in means_f.items()})
    estimate = summary_of(means, 33.0).estimate
    assert estimate is not None
    assert estimate.chill_hours == pytest.approx(hours, abs=1e-6)


def test_the_window_of_the_contract_is_the_usual_winter() -> None:
    asked = WinterWindow(MonthDay(11, 1), MonthDay(2, 28))
    reading = Reading(seattle(), "c", 0)
    told = summarise_climate(ClimateQuestion(SEATTLE_LATITUDE, reading, asked), models())
    assert told.winters == summary_of(seattle(), SEATTLE_LATITUDE).winters
