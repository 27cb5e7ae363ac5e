"""The plan as a person reads it."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from service.domain.pruned_tree import GraftedVariety, PrunedTree
from service.domain.site import Site
from service.domain.units import Language
from service.present.pruning import pruning_advice
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_pruning import garden, plan

WINTER, SUMMER = date(2026, 1, 15), date(2026, 8, 1)


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return garden(tmp_path_factory.mktemp("garden"))


def told(
    rulebook: Rulebook, tree: PrunedTree, day: date | None = None, *, language: Language = "en", south: bool = False
) -> dict[str, Any]:
    site = Site(latitude=-37.0) if south else Site()
    answer = plan(rulebook, tree, day, site=site)
    return pruning_advice(answer, rulebook=rulebook, language=language)


def test_a_cut_says_what_where_how_much_and_why(rulebook: Rulebook) -> None:
    [shoots] = [cut for cut in told(rulebook, PrunedTree("peach"), SUMMER)["answer"]["cuts"] if cut["amounts"]]
    assert shoots["what"] == "the fruiting_shoots"
    assert shoots["where"] == "there"
    assert shoots["how_much"] == "about 50% of last year's growth (0% to 1,000% is taught)"
    assert shoots["why"] == "The reason for fruiting-shoots."


def test_amounts_come_as_numbers_beside_the_words(rulebook: Rulebook) -> None:
    [shoots] = [cut for cut in told(rulebook, PrunedTree("peach"), SUMMER)["answer"]["cuts"] if cut["amounts"]]
    [amount] = shoots["amounts"]
    assert (amount["value"], amount["unit"], amount["of"]) == (50, "percent", "last_years_growth")
    assert (amount["taught_from"], amount["taught_to"]) == (0, 1000)


def test_the_steps_follow_the_order_of_work(rulebook: Rulebook) -> None:
    steps = told(rulebook, PrunedTree("peach"), SUMMER)["answer"]["steps"]
    assert [(step["step"], step["text"]) for step in steps] == [(1, "Take out dead wood."), (2, "Take out old shoots.")]


def test_what_waits_says_when_to_come_back(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"), WINTER)["answer"]
    shoots = next(cut for cut in answer["not_now"] if cut["cut"] == "fruiting_shoots")
    assert shoots["come_back"]["from"] == "07-01"
    assert shoots["come_back"]["opens"] == "2026-07-01"
    assert shoots["waits_for"] == "days"
    assert answer["when"]["text"] == "Come back from July 1 on."


def test_what_is_never_done_waits_for_nothing(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"), WINTER)["answer"]
    topping = next(cut for cut in answer["not_now"] if cut["cut"] == "topping")
    assert (topping["verdict"], topping["come_back"], topping["waits_for"]) == ("never", None, None)


def test_without_a_day_every_cut_is_told_with_its_days(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"))["answer"]
    assert [cut["cut"] for cut in answer["not_now"]] == ["topping"]
    shoots = next(cut for cut in answer["cuts"] if cut["cut"] == "fruiting_shoots")
    assert (shoots["days"]["from"], shoots["days"]["opens"], shoots["days"]["state"]) == ("07-01", None, None)


def test_the_checks_of_summer_have_dates(rulebook: Rulebook) -> None:
    checks = told(rulebook, PrunedTree("peach", "peach.mild"), WINTER)["answer"]["summer_checks"]
    assert [(check["cut"], check["days"]["opens"]) for check in checks] == [
        ("summer_first", "2026-05-01"),
        ("summer_after_harvest", "2026-07-20"),
    ]


def test_days_are_those_of_the_southern_year(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"), date(2026, 2, 1), south=True)["answer"]
    assert (answer["when"]["days"]["from"], answer["when"]["days"]["to"]) == ("12-29", "02-28")


def test_the_plan_is_told_in_spanish_where_it_is_asked_for(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"), SUMMER, language="es")["answer"]
    assert answer["crop_name"] == "durazno"
    assert answer["cuts"][0]["what"] == "el dead_wood"
    assert answer["cuts"][1]["how_much"].startswith("cerca del 50% de los brotes del último año")


def test_wires_and_years_come_in_both_systems(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("apple", training="horizontal_tiers", height_ft=20, max_height_ft=10))["answer"]
    assert answer["wires"][0] == {"height_in": 18, "height_cm": 46}
    assert [(year["height_ft"], year["height_m"]) for year in answer["renovation"]] == [
        (16.7, 5.09), (13.3, 4.05), (10, 3.05),
    ]  # fmt: skip
    assert answer["renovation"][0]["text"] == "Bring it to 16.7 ft (5.1 m) this year."


def test_each_conclusion_says_what_it_is_about(rulebook: Rulebook) -> None:
    grown = (GraftedVariety("Strong", shoot_length_in=30), GraftedVariety("Weak", shoot_length_in=15))
    whole = told(rulebook, PrunedTree("apple", varieties=grown), WINTER)
    about = {one["rule"]: one["about"] for one in whole["conclusions"]}
    assert (about["apple-in-winter"], about["dead-wood"], about["strong-variety"]) == (None, "dead_wood", "Strong")


def test_a_cut_after_an_unknown_harvest_waits_for_days_that_nobody_can_tell(rulebook: Rulebook) -> None:
    answer = told(rulebook, PrunedTree("peach"), WINTER)["answer"]
    after = next(cut for cut in answer["not_now"] if cut["cut"] == "summer_after_harvest")
    assert (after["come_back"], after["waits_for"]) == (None, "days")
