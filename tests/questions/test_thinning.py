"""The thinning question on made-up trees, step by step."""

from __future__ import annotations

from dataclasses import replace

import pytest

from service.domain.crop_load import Branch, Load, TreeSize
from service.domain.errors import NotUnderstood
from service.knowledge.names import NameBook
from service.questions.thinning import (
    Habit,
    Moment,
    NamedVariety,
    Place,
    ThinningQuestion,
    Variety,
    VarietyPlan,
    find_varieties,
)
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_trees import answer, orchard, planned


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return orchard(tmp_path_factory.mktemp("orchard"))


def said(plan: VarietyPlan) -> list[str]:
    return [conclusion.rule.id for conclusion in plan.measured.conclusions]


def one(rulebook: Rulebook, question: ThinningQuestion) -> VarietyPlan:
    return answer(rulebook, question).plans[0]


# --- what the rules decide --------------------------------------------------------------------------------------------


def test_a_crowded_branch_is_thinned_to_the_spacing(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, 0.6, 48))
    assert (plan.action, plan.urgency, plan.keep, plan.remove) == ("thin", "now", 6, 42)
    assert plan.share_removed == 0.875


def test_a_plan_that_was_followed_and_is_asked_again_says_leave_it(rulebook: Rulebook) -> None:
    first = planned(rulebook, Branch(36, 0.6, 48), Branch(20, 0.5, 30), trunk_girth_in=3)
    done = [replace(branch.carried.branch, fruit=branch.keep) for branch in first.branches]
    again = planned(rulebook, *done, trunk_girth_in=3)
    assert (again.action, again.remove) == ("leave", 0)


def test_leave_keeps_all_even_where_the_measures_allow_fewer(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, 0.6, 5))
    assert (plan.action, plan.keep, plan.remove) == ("leave", 5, 0)
    assert [(branch.keep, branch.remove) for branch in plan.branches] == [(5, 0)]


def test_a_tree_in_its_first_summer_keeps_none(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, 0.6, 5), age_years=1)
    assert (plan.action, plan.keep, plan.remove) == ("remove_all", 0, 5)
    assert [(branch.keep, branch.remove) for branch in plan.branches] == [(0, 5)]


def test_a_crop_without_targets_is_told_nothing(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, 0.6, 48), crop="fig")
    assert (plan.action, plan.keep, plan.remove) == (None, None, None)


def test_half_of_a_crop_stays_on_a_weak_tree(rulebook: Rulebook) -> None:
    load = Load((Branch(36, 0.6, 48),))
    assert one(rulebook, ThinningQuestion("peach", (Variety(load=load),), habit=Habit(vigour="weak"))).keep == 3


def test_steps_stand_in_the_order_of_their_priority(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, 0.6, 48))
    assert [conclusion.rule.id for conclusion in plan.steps.conclusions] == ["first-begin", "pick-up"]


# --- what was measured ------------------------------------------------------------------------------------------------


def test_an_impossible_branch_is_refused_at_its_place(rulebook: Rulebook) -> None:
    with pytest.raises(NotUnderstood, match="400 fruit cannot hang on 3 in") as fault:
        planned(rulebook, Branch(30, fruit=20), Branch(3, fruit=400))
    assert fault.value.faults[0][0] == "/branches/1/fruit"


def test_an_impossible_branch_of_a_variety_is_pointed_at_there(rulebook: Rulebook) -> None:
    good = Variety(load=Load((Branch(30, fruit=20),)), at="/varieties/0")
    bad = Variety(load=Load((Branch(3, fruit=400),)), at="/varieties/1")
    with pytest.raises(NotUnderstood) as fault:
        answer(rulebook, ThinningQuestion("peach", (good, bad)))
    assert fault.value.faults[0][0] == "/varieties/1/branches/0/fruit"


def test_an_odd_branch_is_planned_and_doubted(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(12, fruit=90))
    assert "crowded" in said(plan)
    assert plan.remove == 88


def test_what_was_not_said_is_assumed_aloud(rulebook: Rulebook) -> None:
    assert "age-unknown" in said(planned(rulebook, Branch(36, 0.6, 48)))
    assert "age-unknown" not in said(planned(rulebook, Branch(36, 0.6, 48), age_years=9))


def test_the_girth_that_would_matter_is_named_until_it_is_known(rulebook: Rulebook) -> None:
    unknown = planned(rulebook, Branch(36, 0.6, 48))
    assert "girth-next" in said(unknown)
    girth = unknown.facts["measured.girth_that_matters_in"]
    assert isinstance(girth, float)
    assert planned(rulebook, Branch(36, 0.6, 48), trunk_girth_in=girth * 1.05).keep == 6
    assert (planned(rulebook, Branch(36, 0.6, 48), trunk_girth_in=girth * 0.8).keep or 0) < 6


def test_the_thickness_that_would_matter_is_that_of_the_number_by_spacing(rulebook: Rulebook) -> None:
    plan = planned(rulebook, Branch(36, None, 48), crop="apple")
    thickness = plan.facts["measured.thickness_that_matters_in"]
    assert isinstance(thickness, float)
    assert planned(rulebook, Branch(36, thickness * 1.02, 48), crop="apple").keep == 6
    assert (planned(rulebook, Branch(36, thickness * 0.85, 48), crop="apple").keep or 0) < 6


@pytest.mark.parametrize(
    ("load", "basis"),
    [(Load(), "none"), (Load((Branch(length_in=5),)), "none"), (Load(set="heavy"), "set_class"),
     (Load(fruit=5), "tree"), (Load((Branch(fruit=5),)), "branches"),
     (Load((Branch(fruit=5),), fruit=9), "branches_and_tree")],
)  # fmt: skip
def test_the_number_of_fruit_says_what_it_rests_on(rulebook: Rulebook, load: Load, basis: str) -> None:
    assert one(rulebook, ThinningQuestion("peach", (Variety(load=load),))).facts["load.basis"] == basis


# --- the season -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("crop", "moment", "basis", "share"),
    [
        ("peach", Moment(days_after_full_bloom=20), "days", 0.0),
        ("peach", Moment(days_after_full_bloom=65), "days", 1.5),
        ("peach", Moment(days_after_full_bloom=35, fruit_diameter_mm=40), "days", 0.5),
        ("apple", Moment(days_after_full_bloom=35, fruit_diameter_mm=17.5), "diameter", 0.5),
        ("apple", Moment(fruit_diameter_mm=7), "diameter", -0.2),
        ("apple", Moment(stage="fruit_set"), "none", None),
    ],
)
def test_the_season_is_placed_in_the_window(
    rulebook: Rulebook, crop: str, moment: Moment, basis: str, share: float | None
) -> None:
    facts = one(rulebook, ThinningQuestion(crop, moment=moment)).facts
    assert (facts["season.timing_basis"], facts.get("season.window_share")) == (basis, share)


def test_days_to_the_window_and_days_left_never_run_below_zero(rulebook: Rulebook) -> None:
    early = one(rulebook, ThinningQuestion("peach", moment=Moment(days_after_full_bloom=8))).facts
    late = one(rulebook, ThinningQuestion("peach", moment=Moment(days_after_full_bloom=70))).facts
    assert (early["season.days_to_window"], early["season.days_left"]) == (12, 42)
    assert (late["season.days_to_window"], late["season.days_left"]) == (0, 0)


def test_stones_harden_from_their_day_on(rulebook: Rulebook) -> None:
    def hardened(days: int) -> object:
        question = ThinningQuestion("peach", moment=Moment(days_after_full_bloom=days))
        return one(rulebook, question).facts["season.past_pit_hardening"]

    assert [hardened(days) for days in (59, 60)] == [False, True]


@pytest.mark.parametrize(
    ("moment", "drop"),
    [(Moment(stage="fruit_set"), "before"), (Moment(stage="natural_drop"), "during"),
     (Moment(stage="half_size"), "over"), (Moment(stage="half_size", natural_drop="during"), "during")],
)  # fmt: skip
def test_the_stage_says_where_the_natural_drop_stands_unless_somebody_saw_it(
    rulebook: Rulebook, moment: Moment, drop: str
) -> None:
    assert one(rulebook, ThinningQuestion("peach", moment=moment)).facts["season.natural_drop"] == drop


# --- varieties --------------------------------------------------------------------------------------------------------


def test_each_variety_is_planned_for_itself_and_the_early_one_is_worked_first(rulebook: Rulebook) -> None:
    late = Variety("apple.october", load=Load((Branch(36, 0.6, 30),)))
    early = Variety("apple.august", load=Load((Branch(36, 0.6, 60),)))
    told = answer(rulebook, ThinningQuestion("apple", (late, early)))
    assert [(plan.keep, plan.remove) for plan in told.plans] == [(6, 24), (6, 54)]
    assert [plan.variety.cultivar for plan in told.in_order_of_work] == ["apple.august", "apple.october"]


def test_what_the_customer_says_of_the_ripening_stands_before_the_catalogue(rulebook: Rulebook) -> None:
    published = one(rulebook, ThinningQuestion("apple", (Variety("apple.august"),)))
    corrected = one(rulebook, ThinningQuestion("apple", (Variety("apple.august", ripening="late"),)))
    assert (published.facts["cultivar.ripening"], corrected.facts["cultivar.ripening"]) == ("early", "late")


def test_what_nobody_told_is_not_judged_and_what_was_told_is(rulebook: Rulebook) -> None:
    told = answer(rulebook, ThinningQuestion("peach"))
    assert {"tree.age_years", "tree.vigour"} <= set(told.not_judged)
    grown = ThinningQuestion("peach", tree=TreeSize(age_years=9), habit=Habit(vigour="strong"))
    assert {"tree.age_years", "tree.vigour"}.isdisjoint(answer(rulebook, grown).not_judged)


def test_what_the_place_adds_is_a_fact_only_where_somebody_said_it(rulebook: Rulebook) -> None:
    facts = one(rulebook, ThinningQuestion("peach", place=Place(frost_past=False))).facts
    assert facts["site.frost_past"] is False
    assert "site.brown_rot" not in facts


def test_names_are_found_and_a_near_miss_is_offered(rulebook: Rulebook) -> None:
    book = NameBook(rulebook.catalogue)
    nobody, august = NamedVariety(None, "/cultivar"), NamedVariety("August", "/varieties/0/cultivar")
    assert find_varieties(book, "Apple", [august, nobody]) == ("apple", ("apple.august", None))
    with pytest.raises(NotUnderstood, match="near names: August") as fault:
        find_varieties(book, "apple", [NamedVariety("Augst", "/cultivar")])
    assert fault.value.faults[0][0] == "/cultivar"


# --- branches ---------------------------------------------------------------------------------------------------------


def test_a_limb_that_bends_too_far_is_propped(rulebook: Rulebook) -> None:
    stout, slender = planned(rulebook, Branch(36, 0.8, 48), Branch(36, 0.45, 48)).branches
    assert (stout.judgement.concluded.get("limb_support"), slender.judgement.concluded["limb_support"]) == (
        None, "prop_or_tie"
    )  # fmt: skip
    assert slender.facts["branch.strain"] > stout.facts["branch.strain"]  # type: ignore[operator]


def test_a_thin_branch_keeps_nothing_on_its_outer_third(rulebook: Rulebook) -> None:
    thick, thin = planned(rulebook, Branch(60, 0.6, 48), Branch(60, 0.3, 48)).branches
    assert thick.thirds is not None
    assert thin.thirds is not None
    assert (thick.thirds.outer, thin.thirds.outer) == (1, 0)


def test_strain_is_unknown_where_no_weight_is_known_of_the_crop(rulebook: Rulebook) -> None:
    assert "branch.strain" not in planned(rulebook, Branch(36, 0.6, 48), crop="apple").branches[0].facts
