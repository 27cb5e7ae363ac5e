"""The thinning question with the rules of the project, over trees of every kind."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings

from service.domain.crop_load import Branch, Load, TreeSize
from service.questions.thinning import (
    Habit,
    Moment,
    Place,
    ThinningAnswer,
    ThinningQuestion,
    Variety,
    VarietyPlan,
    plan_thinning,
)
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook
from tests.questions.thinning_cases import BRANCH_LOADS, CROPS, LOADS, followed, questions

CROWDED = Load((Branch(36, 0.6, 48), Branch(24, 0.5, 40)))
NEVER = {"almond", "fig", "jujube", "loquat", "pawpaw", "sweet_cherry", "tart_cherry"}
SELDOM = {"apricot", "european_pear", "european_plum", "persimmon", "pomegranate", "quince"}


def ask(rulebook: Rulebook, question: ThinningQuestion) -> ThinningAnswer:
    return plan_thinning(question, rulebook=rulebook, asking=PlainMatcher(rulebook))


def one(rulebook: Rulebook, crop: str, load: Load = CROWDED, **parts: Any) -> VarietyPlan:
    return ask(rulebook, ThinningQuestion(crop, (Variety(load=load),), **parts)).plans[0]


def told(plan: VarietyPlan) -> set[str]:
    return {conclusion.rule.id for conclusion in (*plan.plan.conclusions, *plan.steps.conclusions)}


# --- over all kinds of trees ------------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(question=questions(LOADS))
def test_no_two_rules_disagree_and_every_plan_says_what_to_do(rulebook: Rulebook, question: ThinningQuestion) -> None:
    for plan in ask(rulebook, question).plans:
        for judgement in (plan.target, plan.measured, plan.plan, plan.steps, *(one.judgement for one in plan.branches)):
            assert judgement.conflicts == ()
        assert plan.action in {"wait", "leave", "thin", "remove_all"}
        assert plan.urgency is not None


@settings(max_examples=150)
@given(question=questions(BRANCH_LOADS))
def test_a_plan_that_was_followed_and_is_asked_again_says_leave_it(
    rulebook: Rulebook, question: ThinningQuestion
) -> None:
    first = ask(rulebook, question)
    done = tuple(plan.variety if plan.action == "wait" else followed(plan) for plan in first.plans)
    for before, after in zip(first.plans, ask(rulebook, replace(question, varieties=done)).plans, strict=True):
        if before.action != "wait":
            assert (after.action, after.remove) == ("leave", 0)


@settings(max_examples=60)
@given(question=questions(BRANCH_LOADS, most=1))
def test_a_plan_keeps_and_removes_what_was_there(rulebook: Rulebook, question: ThinningQuestion) -> None:
    plan = ask(rulebook, question).plans[0]
    if plan.keep is not None and plan.remove is not None:
        assert plan.keep + plan.remove == plan.variety.load.counted


# --- what is to be done -----------------------------------------------------------------------------------------------


def test_the_cases_name_every_crop_of_the_catalogue(rulebook: Rulebook) -> None:
    assert set(CROPS) == set(rulebook.catalogue.crops)


@pytest.mark.parametrize("crop", sorted(NEVER))
def test_crops_that_nobody_thins_are_left_however_much_they_bear(rulebook: Rulebook, crop: str) -> None:
    plan = one(rulebook, crop, Load(CROWDED.branches, set="every_cluster"))
    assert (plan.action, plan.remove) == ("leave", 0)


@pytest.mark.parametrize("crop", sorted(set(CROPS) - NEVER))
def test_a_heavy_set_is_thinned_and_a_few_fruit_are_left(rulebook: Rulebook, crop: str) -> None:
    assert one(rulebook, crop, Load(set="heavy")).action == "thin"
    assert one(rulebook, crop, Load(set="few")).action == "leave"


@pytest.mark.parametrize("crop", sorted(set(CROPS) - NEVER))
def test_only_crops_that_are_always_thinned_are_thinned_unseen(rulebook: Rulebook, crop: str) -> None:
    wanted = "leave" if crop in SELDOM else "thin"
    assert one(rulebook, crop, Load()).action == wanted
    assert one(rulebook, crop, Load(set="good")).action == wanted


def test_a_crop_that_is_seldom_thinned_bears_half_as_many_again(rulebook: Rulebook) -> None:
    """A pear branch of 36 in has room for six at 6 in."""
    assert one(rulebook, "european_pear", Load((Branch(36, None, 9),))).action == "leave"
    assert one(rulebook, "european_pear", Load((Branch(36, None, 10),))).action == "thin"


@pytest.mark.parametrize(
    ("crop", "parts", "action"),
    [
        ("peach", {"place": Place(frost_past=False)}, "wait"),
        ("peach", {"moment": Moment(days_after_full_bloom=20)}, "wait"),
        ("peach", {"moment": Moment(days_after_full_bloom=21)}, "thin"),
        ("peach", {"moment": Moment(fruit_diameter_mm=9)}, "wait"),
        ("peach", {"moment": Moment(stage="petal_fall")}, "wait"),
        ("peach", {"moment": Moment(stage="half_size")}, "thin"),
        ("apple", {"moment": Moment(natural_drop="during")}, "wait"),
        ("apple", {"moment": Moment(natural_drop="over")}, "thin"),
        ("apple", {"moment": Moment(stage="fruit_set")}, "wait"),
        ("peach", {"moment": Moment(stage="fruit_set")}, "thin"),
        ("persimmon", {"moment": Moment(days_after_full_bloom=29)}, "wait"),
        ("persimmon", {"moment": Moment(days_after_full_bloom=30)}, "thin"),
    ],
)
def test_thinning_waits_for_frost_the_drop_and_the_window(
    rulebook: Rulebook, crop: str, parts: dict[str, Any], action: str
) -> None:
    assert one(rulebook, crop, **parts).action == action


@pytest.mark.parametrize(("days", "window", "urgency"), [(21, "open", "soon"), (45, "closing", "now"),
                                                         (50, "closing", "now"), (51, "past", "soon")])  # fmt: skip
def test_the_window_of_a_peach_says_how_soon(rulebook: Rulebook, days: int, window: str, urgency: str) -> None:
    plan = one(rulebook, "peach", moment=Moment(days_after_full_bloom=days))
    assert (plan.plan.concluded["thinning_window"], plan.urgency) == (window, urgency)


def test_after_pit_hardening_thinning_still_serves_limbs_and_health(rulebook: Rulebook) -> None:
    late = one(rulebook, "peach", moment=Moment(days_after_full_bloom=60))
    assert late.action == "thin"
    assert {"stones-have-begun-to-harden", "size-tells-nothing-while-stones-harden"} <= told(late)
    assert "take-the-smallest-next" not in told(late)


def test_a_tree_that_splits_stones_is_thinned_before_and_after_but_not_while_they_harden(rulebook: Rulebook) -> None:
    split = Habit(split_pits=True)
    before = one(rulebook, "peach", habit=split, moment=Moment(days_after_full_bloom=35))
    assert (before.action, before.plan.concluded["thinning_passes"]) == ("thin", 2)
    assert one(rulebook, "peach", habit=split, moment=Moment(days_after_full_bloom=65)).action == "wait"


# --- in the order of work ---------------------------------------------------------------------------------------------


def test_the_early_variety_on_a_tree_comes_first(rulebook: Rulebook) -> None:
    seasons = ("late", "mid", "very_early")
    question = ThinningQuestion(
        "peach", tuple(Variety(ripening=season, load=CROWDED) for season in seasons), TreeSize(age_years=8)
    )
    plans = ask(rulebook, question).in_order_of_work
    assert [plan.variety.ripening for plan in plans] == ["very_early", "mid", "late"]
    shares = [plan.share_removed or 0 for plan in plans]
    assert shares == sorted(shares, reverse=True)
    assert "thin-early-peaches-first-and-hardest" in told(plans[0])


def test_steps_go_from_the_tip_through_the_damaged_to_the_fallen(rulebook: Rulebook) -> None:
    steps = sorted(one(rulebook, "japanese_plum").steps.conclusions, key=lambda step: step.rule.priority)
    order = [step.rule.id for step in steps]
    wanted = [
        "go-branch-by-branch-from-the-tip", "roll-stone-fruit-off-with-fingers", "take-damaged-stone-fruit-first",
        "take-doubles-and-twins", "open-the-clusters-of-plums-and-apricots", "take-the-smallest-next",
        "space-what-is-left", "pick-the-fallen-fruit-up",
    ]  # fmt: skip
    assert [step for step in order if step in wanted] == wanted


def test_pears_are_snipped_and_apples_pinched(rulebook: Rulebook) -> None:
    assert "snip-fruit-with-woody-stems" in told(one(rulebook, "european_pear"))
    assert "pinch-apples-off-and-keep-the-spur" in told(one(rulebook, "apple"))
