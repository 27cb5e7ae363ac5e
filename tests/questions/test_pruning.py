"""The pruning question by made-up rules, step by step."""

from __future__ import annotations

from datetime import date

import pytest

from service.domain.month_day import MonthDay
from service.domain.pruned_tree import GraftedVariety, PrunedTree
from service.domain.site import Site
from service.questions.pruning import PruningAnswer
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_pruning import garden, plan

WINTER, SPRING, SUMMER = date(2026, 1, 15), date(2026, 5, 10), date(2026, 8, 1)
PEACH = PrunedTree("peach")


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return garden(tmp_path_factory.mktemp("garden"))


def verdicts(answer: PruningAnswer) -> dict[str, str | None]:
    return {one.cut.id: one.verdict for one in answer.cuts}


def test_a_cut_of_summer_waits_in_winter_and_is_made_in_its_days(rulebook: Rulebook) -> None:
    assert verdicts(plan(rulebook, PEACH, WINTER))["fruiting_shoots"] == "wait"
    assert verdicts(plan(rulebook, PEACH, SUMMER))["fruiting_shoots"] == "now"


def test_a_window_that_runs_over_new_year_is_open_in_january(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("apple"), WINTER)
    assert answer.windows["main"].opens == date(2025, 12, 16)
    assert answer.windows["main"].closes == date(2026, 2, 9)
    assert verdicts(answer)["fruiting_shoots"] == "now"


def test_without_a_date_the_days_are_told_and_nothing_is_said_of_today(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PEACH)
    assert verdicts(answer)["fruiting_shoots"] is None
    assert answer.windows["main"].days is not None
    assert answer.windows["main"].standing is None
    assert answer.season.conclusions == ()


def test_a_cut_that_no_rule_asks_for_is_not_in_the_plan(rulebook: Rulebook) -> None:
    assert "height" not in verdicts(plan(rulebook, PEACH, SUMMER))


def test_what_people_should_not_do_is_refused_in_every_season(rulebook: Rulebook) -> None:
    assert [verdicts(plan(rulebook, PEACH, day))["topping"] for day in (None, WINTER, SUMMER)] == ["never"] * 3


def test_the_main_pruning_waits_until_the_known_harvest_is_over(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("peach", "peach.wintry"), SUMMER)  # picked to day 230, August 18
    assert answer.windows["main"].opens == date(2026, 8, 19)
    assert answer.windows["main"].narrowed_by == ("harvest",)
    assert verdicts(answer)["fruiting_shoots"] == "wait"


def test_a_tree_that_is_bare_already_waits_no_longer(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("peach", "peach.wintry", harvested=True), SUMMER)
    assert verdicts(answer)["fruiting_shoots"] == "now"


def test_the_latest_variety_on_a_grafted_tree_is_waited_for(rulebook: Rulebook) -> None:
    grown = (GraftedVariety("Wintry", "peach.wintry"), GraftedVariety("Mild", "peach.mild"))
    assert plan(rulebook, PrunedTree("peach", varieties=grown), SUMMER).windows["main"].opens == date(2026, 8, 19)


def test_the_days_end_six_weeks_before_the_rains(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PEACH, SUMMER, site=Site(rains_begin=MonthDay(10, 1)))
    assert answer.windows["main"].closes == date(2026, 8, 20)
    assert answer.windows["main"].narrowed_by == ("rain",)


def test_where_the_rains_come_too_early_no_day_is_safe(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PEACH, SUMMER, site=Site(rains_begin=MonthDay(7, 15)))
    assert answer.windows["main"].days is None
    assert answer.windows["main"].standing is not None
    assert answer.windows["main"].standing.state == "none"


def test_the_seasons_are_turned_round_south_of_the_equator(rulebook: Rulebook) -> None:
    site = Site(latitude=-37.0)
    assert verdicts(plan(rulebook, PEACH, date(2026, 2, 1), site=site))["fruiting_shoots"] == "now"
    assert verdicts(plan(rulebook, PEACH, date(2026, 8, 1), site=site))["fruiting_shoots"] == "wait"


def test_wet_weather_is_told_to_the_rules_on_the_day(rulebook: Rulebook) -> None:
    assert plan(rulebook, PEACH, SUMMER, wet=True).season.concluded["weather_verdict"] == "too_wet"
    assert plan(rulebook, PEACH, SUMMER, wet=False).season.concluded["when_verdict"] == "now"


def test_the_cuts_after_harvest_begin_when_the_fruit_is_off(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("peach", "peach.mild"), SPRING)  # picked to day 200, July 19
    assert answer.windows["after_harvest"].opens == date(2026, 7, 20)
    told = plan(rulebook, PrunedTree("peach", "peach.mild", harvested=True), date(2026, 7, 10))
    assert told.windows["after_harvest"].opens == date(2026, 7, 10)


def test_the_cuts_after_harvest_have_no_days_where_the_harvest_is_unknown(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PEACH, SPRING)
    assert "after_harvest" not in answer.windows
    assert verdicts(answer)["summer_after_harvest"] is None


def test_a_high_tree_comes_down_over_years_to_the_wanted_height(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("peach", height_ft=20, max_height_ft=11), SUMMER)
    assert [(year.step.year, year.step.height_ft) for year in answer.renovation] == [(1, 17), (2, 14), (3, 11)]
    assert [len(year.judgement.conclusions) for year in answer.renovation] == [1, 0, 0]


def test_the_cut_of_this_year_goes_no_further_than_its_first_step(rulebook: Rulebook) -> None:
    goals = {}
    for height in (20, 12, 11, None):
        answer = plan(rulebook, PrunedTree("peach", height_ft=height, max_height_ft=11), SUMMER)
        cuts = {one.cut.id: one.judgement.concluded for one in answer.cuts}
        goals[height] = cuts["height"]["bring_down_to_ft"] if "height" in cuts else None
    assert goals == {20: 17, 12: 11, 11: None, None: None}


def test_a_tree_that_is_hardly_too_high_comes_down_at_once(rulebook: Rulebook) -> None:
    assert plan(rulebook, PrunedTree("peach", height_ft=12, max_height_ft=11), SUMMER).renovation == ()


def test_wires_stand_as_far_apart_as_the_form_says_and_under_the_wanted_height(rulebook: Rulebook) -> None:
    tiers = PrunedTree("apple", training="horizontal_tiers")
    assert plan(rulebook, tiers).wires_in == (18, 34, 50, 66)
    assert plan(rulebook, PrunedTree("apple", training="horizontal_tiers", max_height_ft=5)).wires_in == (18, 34, 50)
    assert plan(rulebook, PrunedTree("apple", training="open_centre")).wires_in == ()


def test_a_form_is_assumed_only_where_none_is_told(rulebook: Rulebook) -> None:
    assert plan(rulebook, PEACH).training == "open_centre"
    assert plan(rulebook, PrunedTree("peach", training="fan")).training == "fan"


def test_of_several_varieties_the_strong_one_is_cut_hard(rulebook: Rulebook) -> None:
    grown = (GraftedVariety("Strong", shoot_length_in=30), GraftedVariety("Weak", shoot_length_in=15))
    judged = plan(rulebook, PrunedTree("apple", varieties=grown), WINTER).varieties
    assert [one.judgement.concluded.get("variety_cut") for one in judged] == ["hard", None]


def test_varieties_are_not_compared_where_one_was_not_measured(rulebook: Rulebook) -> None:
    grown = (GraftedVariety("Strong", shoot_length_in=30), GraftedVariety("Weak"))
    judged = plan(rulebook, PrunedTree("apple", varieties=grown), WINTER).varieties
    assert [one.judgement.conclusions for one in judged] == [(), ()]


def test_shoots_are_counted_out_for_the_fruit_that_is_wanted(rulebook: Rulebook) -> None:
    answer = plan(rulebook, PrunedTree("peach", fruit_wanted=300, shoot_length_in=20), SUMMER)
    cut = next(one for one in answer.cuts if one.cut.id == "fruiting_shoots")
    assert cut.judgement.concluded["keep_count"] == 50


def test_only_what_could_change_the_plan_is_asked_for(rulebook: Rulebook) -> None:
    asked = plan(rulebook, PrunedTree("apple", training="open_centre"), WINTER).not_judged
    assert "weather.wet" in asked
    assert "tree.shoot_length_in" not in asked  # its rule is for peaches
    assert "date.day" not in asked
