"""The climate of a place: what a series carries, and what it does not."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.domain.climate import ClimateSummary, WinterWindow
from service.domain.errors import NotUnderstood
from service.domain.month_day import MonthDay
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans, Reading, Series, celsius, fahrenheit
from service.questions.climate import ClimateQuestion, summarise_climate
from tests.published.weather_at_hand import GREENSBORO_LATITUDE, greensboro_winter, models, seattle

MODELS = models()


def asked(series: Series, *, latitude: float = 45.0, winter: WinterWindow | None = None) -> ClimateSummary:
    return summarise_climate(ClimateQuestion(latitude, Reading(series, "c", 0), winter), MODELS)


def years_of_hours(first: str, years: int, *, coldest_month: int = 1) -> HourlySeries:
    """Made-up hours: a yearly wave around 10 °C, coldest in mid month, and a daily one."""
    begin = np.datetime64(first)
    days = np.arange(begin, begin + np.timedelta64(years * 365 + years // 4 + 1, "D"))
    day_of_year = (days - days.astype("datetime64[Y]")).astype(float)
    yearly = -10 * np.cos(2 * np.pi * (day_of_year - 15 - 30.4 * (coldest_month - 1)) / 365.25)
    daily = 5 * np.sin(2 * np.pi * (np.arange(24) - 9) / 24)
    return HourlySeries(begin, (10 + yearly[:, None] + daily).ravel())


def test_ten_whole_winters_are_enough_and_nine_are_not() -> None:
    ten, nine = (asked(years_of_hours("2000-07-01", years)) for years in (10, 9))
    assert ten.safe_chill is not None
    assert ten.safe_chill.winters == 10
    assert not any("safe chill rests" in warning for warning in ten.warnings)
    assert any("safe chill rests on 9 winters" in warning for warning in nine.warnings)


def test_a_winter_with_too_many_gaps_is_reported_but_left_out() -> None:
    series = years_of_hours("2000-07-01", 3)
    holed = series.temp_c.copy()
    start = int((np.datetime64("2001-12-01") - series.first_day) / np.timedelta64(1, "h"))
    holed[start : start + 200] = np.nan
    summary = asked(HourlySeries(series.first_day, holed))
    told = {winter.label: winter for winter in summary.winters}
    assert not told["2001-02"].counted
    assert told["2001-02"].coverage == pytest.approx(1 - 200 / 2880)
    assert summary.safe_chill is not None
    assert summary.safe_chill.winters == 2
    assert any("2001-02" in warning for warning in summary.warnings)


def test_a_winter_read_to_exactly_the_limit_counts() -> None:
    series = years_of_hours("2000-07-01", 1)
    start = int((np.datetime64("2000-12-01") - series.first_day) / np.timedelta64(1, "h"))
    for missing, counted in ((144, True), (145, False)):  # 5 % of the 2,880 hours from November to February
        holed = series.temp_c.copy()
        holed[start : start + missing] = np.nan
        (winter,) = asked(HourlySeries(series.first_day, holed)).winters
        assert winter.counted is counted


def test_gaps_are_counted_and_the_longest_is_named() -> None:
    series = years_of_hours("2000-07-01", 1)
    holed = series.temp_c.copy()
    holed[:30] = holed[100:103] = holed[500:510] = np.nan
    gaps = asked(HourlySeries(series.first_day, holed)).gaps
    assert gaps is not None
    assert (gaps.unit, gaps.missing, gaps.longest) == ("hours", 13, 10)
    assert gaps.longest_from == "2000-07-21T20:00"


def test_half_a_year_and_the_other_side_of_the_equator_make_the_same_climate() -> None:
    """184 days on, so that 1 November falls on a 4 May; the window is moved by as much."""
    north = years_of_hours("2000-07-01", 3)
    south = HourlySeries(north.first_day + np.timedelta64(184, "D"), north.temp_c)
    northern = asked(north, winter=WinterWindow(MonthDay(11, 1), MonthDay(2, 27)))
    southern = asked(south, latitude=-45.0, winter=WinterWindow(MonthDay(5, 4), MonthDay(8, 30)))
    assert [winter.chill for winter in northern.winters] == [winter.chill for winter in southern.winters]
    assert [winter.label for winter in southern.winters] == ["2001", "2002", "2003"]
    assert northern.cold is not None
    assert southern.cold is not None
    assert southern.cold.mean_annual_minimum_f == pytest.approx(northern.cold.mean_annual_minimum_f)


def test_the_usual_winter_of_the_south_is_six_months_away() -> None:
    summary = asked(years_of_hours("2001-01-01", 2, coldest_month=7), latitude=-38.0)
    assert summary.window == WinterWindow(MonthDay(5, 1), MonthDay(8, 31))
    assert [winter.label for winter in summary.counted_winters] == ["2001", "2002"]


def test_southern_frosts_come_in_their_own_seasons() -> None:
    summary = asked(years_of_hours("2001-01-01", 2, coldest_month=7), latitude=-38.0)
    assert summary.first_autumn_frost is not None
    assert summary.last_spring_frost is not None
    assert 4 <= summary.first_autumn_frost.month <= 6
    assert 7 <= summary.last_spring_frost.month <= 10


@given(st.integers(-5, 5))
@settings(max_examples=10, deadline=None)
def test_a_colder_place_has_no_fewer_hours_no_warmer_zone_and_no_earlier_last_frost(colder_by: int) -> None:
    series = greensboro_winter()
    here, there = asked(series, latitude=36.1), asked(HourlySeries(series.first_day, series.temp_c - abs(colder_by)))
    assert there.winters[0].chill_hours >= here.winters[0].chill_hours
    assert here.cold is not None
    assert there.cold is not None
    assert there.cold.mean_annual_minimum_f <= here.cold.mean_annual_minimum_f
    assert there.last_spring_frost is not None
    assert here.last_spring_frost is not None
    assert there.last_spring_frost >= here.last_spring_frost


def test_readings_given_in_fahrenheit_make_the_same_climate() -> None:
    days = seattle()
    in_f = [np.round(np.asarray(fahrenheit(extreme)), 6) for extreme in (days.min_c, days.max_c)]
    again = DailySeries(days.first_day, *(np.asarray(celsius(extreme)) for extreme in in_f))
    one, other = asked(days, latitude=47.45), asked(again, latitude=47.45)
    for here, there in zip(one.winters, other.winters, strict=True):
        assert here.chill_portions == pytest.approx(there.chill_portions, abs=1e-3)
        assert here.chill_hours == pytest.approx(there.chill_hours, abs=2)


def test_days_and_the_hours_worked_out_from_them_agree_with_the_hours_that_were_read() -> None:
    """On the Greensboro year hours rebuilt from daily extremes are off by a few in a hundred."""
    read = greensboro_winter()
    days = read.temp_c.reshape(-1, 24)
    rebuilt = asked(DailySeries(read.first_day, days.min(axis=1), days.max(axis=1)), latitude=GREENSBORO_LATITUDE)
    counted = asked(read, latitude=GREENSBORO_LATITUDE)
    assert rebuilt.winters[0].chill_portions == pytest.approx(counted.winters[0].chill_portions, rel=0.05)
    assert rebuilt.cold == counted.cold
    assert rebuilt.last_spring_frost == counted.last_spring_frost


def test_a_series_without_a_midwinter_has_no_zone_and_says_so() -> None:
    summary = asked(HourlySeries(np.datetime64("2013-06-01"), np.full(90 * 24, 20.0)))
    assert (summary.winters, summary.safe_chill, summary.cold) == ((), None, None)
    assert {"No winter was read far enough for a safe chill figure.",
            "No midwinter was read far enough for a hardiness zone."} <= set(summary.warnings)  # fmt: skip


def test_hours_of_the_winters_alone_still_give_a_zone() -> None:
    series = years_of_hours("2000-11-01", 1)
    winter = HourlySeries(series.first_day, series.temp_c[: 120 * 24])
    summary = asked(winter)
    assert summary.cold is not None
    assert summary.first_autumn_frost is None


def test_a_place_without_frost_is_told_as_such() -> None:
    summary = asked(HourlySeries(np.datetime64("2012-07-01"), np.full(365 * 24, 20.0)), latitude=20.0)
    assert summary.spring_frost is not None
    assert (summary.spring_frost.years, summary.spring_frost.years_without_frost) == (1, 1)
    assert summary.last_spring_frost is None


def test_a_year_without_frost_in_a_mild_place_makes_the_last_frost_earlier() -> None:
    """Two years with a frost on 20 January, one without any: the middling last frost is still that day."""
    low = np.full(3 * 365, 5.0)
    dates = np.datetime64("2012-07-01") + np.arange(low.size)
    for year in ("2013", "2015"):
        low[dates == np.datetime64(f"{year}-01-20")] = -1.0
    summary = asked(DailySeries(np.datetime64("2012-07-01"), low, low + 10), latitude=33.0)
    assert summary.spring_frost is not None
    assert summary.spring_frost.years_without_frost == 1
    assert summary.last_spring_frost == MonthDay(1, 20)
    assert summary.first_autumn_frost == MonthDay(1, 20)


def test_a_leap_day_does_not_move_the_dates_after_it() -> None:
    for year in (2012, 2013):
        first = np.datetime64(f"{year - 1}-07-01")
        days = np.arange(first, np.datetime64(f"{year}-07-01"))
        low = np.where(days == np.datetime64(f"{year}-04-10"), -2.0, 6.0)
        assert asked(DailySeries(first, low, low + 8)).last_spring_frost == MonthDay(4, 10)


def test_hours_cannot_be_worked_out_where_the_sun_does_not_set() -> None:
    with pytest.raises(NotUnderstood, match="give hourly temperatures"):
        asked(seattle(), latitude=68.0)
    assert asked(years_of_hours("2000-07-01", 1), latitude=68.0).winters


def test_an_estimate_says_that_it_is_one_and_how_far_it_may_be_off() -> None:
    summary = asked(MonthlyMeans({1: 10.0}), latitude=33.0)
    assert summary.chill_basis == "estimate"
    assert summary.safe_chill is None
    assert "estimate" in summary.warnings[0]
    assert "500 hours" in summary.warnings[0]
    assert len(summary.warnings) == 1


def test_an_estimate_outside_the_range_of_its_line_is_doubted() -> None:
    assert any("lies outside" in warning for warning in asked(MonthlyMeans({1: -5.0})).warnings)


def test_the_south_is_estimated_from_july() -> None:
    estimate = asked(MonthlyMeans({7: 10.0, 1: 24.0}), latitude=-33.0).estimate
    assert estimate is not None
    assert estimate.chill_hours == pytest.approx(847.0)


def test_means_without_the_coldest_month_are_refused() -> None:
    with pytest.raises(NotUnderstood, match="January"):
        asked(MonthlyMeans({7: 25.0}))


def test_the_sources_named_are_those_of_the_models_that_were_used() -> None:
    of_hours = {"hours_at_or_below_45f", "hours_32_45f", "utah", "positive_utah", "dynamic_model", "hardiness_zones",
                "safe_chill"}  # fmt: skip
    assert {source.model for source in asked(seattle(), latitude=47.45).sources} == {
        *of_hours, "day_length", "hourly_from_daily",
    }  # fmt: skip
    assert {source.model for source in asked(greensboro_winter()).sources} == of_hours
    assert {source.model for source in asked(MonthlyMeans({1: 9.0, 7: 25.0})).sources} == {"chill_from_monthly_means"}


def test_a_stricter_coverage_is_a_matter_of_the_rules_and_not_of_the_code() -> None:
    strict = replace(MODELS, safe=replace(MODELS.safe, coverage=1.0))
    reading = Reading(seattle(), "c", 0)
    summary = summarise_climate(ClimateQuestion(47.45, reading), strict)
    assert [winter.counted for winter in summary.winters] == [False, True, True, True, False]
