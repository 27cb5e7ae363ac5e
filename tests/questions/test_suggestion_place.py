"""The place as facts: dates in both hemispheres, and what a climate series adds to what was said."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from service.domain.climate import (
    Chill,
    ChillEstimate,
    ClimateSummary,
    FrostDay,
    SafeChill,
    Winter,
    WinterCold,
    WinterWindow,
)
from service.domain.month_day import MonthDay
from service.domain.site import Site
from service.domain.weather import MonthlyMeans, Reading
from service.questions.suggestion.place import WinterChill, site_facts, with_climate


def chill(hours: float, portions: float) -> Chill:
    return Chill(hours, hours, 0.0, 0.0, portions)


SUMMARY = ClimateSummary(
    latitude=47.6, reading=Reading(MonthlyMeans({6: 16.0, 7: 20.0, 8: 19.5}), "c", 3),
    first_day=date(2012, 1, 1), last_day=date(2015, 12, 31),
    window=WinterWindow(MonthDay(11, 1), MonthDay(2, 28)),
    winters=(
        Winter("2012-13", chill(1800, 80), 1.0, counted=True), Winter("2013-14", chill(1600, 76), 1.0, counted=True),
        Winter("2014-15", chill(1400, 70), 1.0, counted=True), Winter("2015-16", chill(300, 20), 0.4, counted=False),
    ),
    safe_chill=SafeChill(chill(1440, 71), 3), estimate=None, cold=WinterCold(23.1, "8b", 4),
    spring_frost=FrostDay(MonthDay(3, 20), MonthDay(4, 5), 4, 0), autumn_frost=FrostDay(MonthDay(11, 12), None, 4, 0),
    gaps=None, warnings=(), sources=(),
)  # fmt: skip


def test_a_series_fills_what_nobody_said() -> None:
    site = with_climate(Site(), SUMMARY)
    assert (site.hardiness_zone, site.chill_hours, site.chill_portions) == (8.5, 1440, 71)
    assert (site.chill_basis, site.winters) == ("series", 3)
    assert (site.latitude, site.warmest_month_f) == (47.6, 68.0)
    assert (site.last_spring_frost, site.first_autumn_frost) == (MonthDay(3, 20), MonthDay(11, 12))


def test_what_the_customer_said_of_the_place_stands() -> None:
    site = with_climate(Site(hardiness_zone=7.0, chill_portions=60.0), SUMMARY)
    assert (site.hardiness_zone, site.chill_portions) == (7.0, 60.0)
    assert (site.chill_hours, site.chill_basis, site.winters) == (None, "given", None)


def test_an_estimate_from_months_is_called_one() -> None:
    guessed = ChillEstimate(800.0, "a line", 45.0, within_range=True, bias="may err")
    site = with_climate(Site(), replace(SUMMARY, estimate=guessed, safe_chill=None))
    assert (site.chill_hours, site.chill_portions, site.chill_basis) == (800.0, None, "estimate")


def test_a_given_figure_is_called_given_without_any_series() -> None:
    assert with_climate(Site(chill_hours=700), None).chill_basis == "given"
    assert with_climate(Site(), None).chill_basis is None


@pytest.mark.parametrize(("need", "share"), [(1400, 1.0), (1401, 0.667), (1601, 0.333), (1801, 0.0)])
def test_the_share_of_winters_counts_those_that_met_the_need_to_the_hour(need: float, share: float) -> None:
    assert WinterChill(SUMMARY).met_share("hours", need) == share


def test_without_winters_there_is_no_share() -> None:
    assert WinterChill(None).met_share("hours", 100) is None


def test_frost_days_count_from_january_in_the_north_and_from_july_in_the_south() -> None:
    north = site_facts(Site(latitude=40, last_spring_frost=MonthDay(4, 10), first_autumn_frost=MonthDay(10, 28)))
    south = site_facts(Site(latitude=-40, last_spring_frost=MonthDay(10, 9), first_autumn_frost=MonthDay(4, 29)))
    assert (north["site.last_spring_frost_day"], north["site.first_autumn_frost_day"]) == (100, 301)
    assert south["site.frost_free_days"] == north["site.frost_free_days"] + 1 == 202  # type: ignore[operator]


def test_a_first_frost_after_the_turn_of_the_year_ends_the_season_with_the_year() -> None:
    facts = site_facts(Site(last_spring_frost=MonthDay(2, 10), first_autumn_frost=MonthDay(1, 5)))
    assert (facts["site.first_autumn_frost_day"], facts["site.frost_free_days"]) == (365, 324)


def test_frost_dates_that_contradict_one_another_leave_no_frost_free_day() -> None:
    facts = site_facts(Site(last_spring_frost=MonthDay(5, 10), first_autumn_frost=MonthDay(4, 1)))
    assert facts["site.frost_free_days"] == 0


def test_what_is_unknown_is_no_fact() -> None:
    assert site_facts(Site()) == {}
    assert "site.frost_free_days" not in site_facts(Site(last_spring_frost=MonthDay(4, 10)))
