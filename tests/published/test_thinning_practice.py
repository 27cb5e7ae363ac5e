"""Thinning by the rules of the project against common practice and published rules, asked as a customer would ask.

Common practice that no publication stands behind is marked so; what was recalled from a source says so.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from service.domain.crop_load import Branch, Load, TreeSize
from service.questions.thinning import Habit, ThinningQuestion, Variety, VarietyPlan, plan_thinning
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook


def planned(rulebook: Rulebook, crop: str, variety: Variety, *, weak: bool = False, **tree: Any) -> VarietyPlan:
    question = ThinningQuestion(crop, (variety,), TreeSize(**tree), Habit(vigour="weak") if weak else Habit())
    return plan_thinning(question, rulebook=rulebook, asking=PlainMatcher(rulebook)).plans[0]


def branches(*pairs: tuple[float, int], **more: Any) -> Variety:
    return Variety(load=Load(tuple(Branch(length_in=length, fruit=fruit) for length, fruit in pairs)), **more)


# --- common practice, without a publication ---------------------------------------------------------------------------


@pytest.mark.parametrize("crop", ["peach", "nectarine"])
@pytest.mark.parametrize("ripening", ["very_early", "early"])
def test_early_peaches_stand_eight_to_twelve_inches_apart(rulebook: Rulebook, crop: str, ripening: str) -> None:
    """Common practice; four feet of branch keep four to six."""
    plan = planned(rulebook, crop, branches((48, 60), ripening=ripening))
    assert 8 <= plan.facts["target.spacing_in"] <= 12  # type: ignore[operator]
    assert plan.facts["target.spacing_to_in"] == 12
    assert plan.keep in {4, 5, 6}


def test_of_peaches_the_early_ones_are_thinned_hardest(rulebook: Rulebook) -> None:
    """Common practice, and OSU_THIN_NEWS."""
    kept = [planned(rulebook, "peach", branches((60, 90), ripening=season)).keep
            for season in ("very_early", "early", "mid", "late")]  # fmt: skip
    assert kept == [6, 7, 10, 12]


@pytest.mark.parametrize("size", [None, "large"])
def test_plums_keep_one_fruit_to_four_to_six_inches(rulebook: Rulebook, size: str | None) -> None:
    """Common practice, and UCIPM_PLUM_THIN: a yard of branch keeps six to nine."""
    plan = planned(rulebook, "japanese_plum", branches((36, 60), fruit_size=size), age_years=6)
    assert plan.action == "thin"
    assert plan.keep is not None
    assert 6 <= plan.keep <= 9


@pytest.mark.parametrize("crop", ["apple", "european_pear", "asian_pear", "quince"])
def test_pome_fruit_keep_one_to_a_cluster(rulebook: Rulebook, crop: str) -> None:
    """Common practice, and UCIPM_APPLE_THIN: eight clusters of five keep eight."""
    plan = planned(rulebook, crop, Variety(load=Load((Branch(fruit=40, places=8),))))
    assert (plan.action, plan.keep, plan.remove) == ("thin", 8, 32)


@pytest.mark.parametrize("age", [None, 1, 2, 3, 4])
def test_a_young_apple_under_four_feet_carries_none(rulebook: Rulebook, age: int | None) -> None:
    """Common practice."""
    plan = planned(rulebook, "apple", Variety(load=Load(fruit=20)), height_ft=3.9, age_years=age)
    assert (plan.action, plan.keep, plan.remove) == ("remove_all", 0, 20)


def test_an_apple_of_four_feet_or_an_old_dwarf_may_bear(rulebook: Rulebook) -> None:
    """Common practice: the rule is for young and low trees."""
    for tree in ({"height_ft": 4, "age_years": 3}, {"height_ft": 3.9, "age_years": 12}):
        assert planned(rulebook, "apple", branches((24, 4)), **tree).action == "leave"


def test_an_overset_young_plum_loses_about_four_in_five(rulebook: Rulebook) -> None:
    """Common practice: a fruit at nearly every node, about 16 to the foot, in the fourth summer."""
    plan = planned(rulebook, "japanese_plum", branches((24, 32), (30, 40), (18, 24)), age_years=4)
    assert plan.share_removed == pytest.approx(0.8, abs=0.05)


@pytest.mark.parametrize(("set_class", "share"), [("good", 0.5), ("heavy", 0.75), ("every_cluster", 0.9)])
def test_a_plum_that_nobody_counted_is_told_what_usually_comes_off(
    rulebook: Rulebook, set_class: Any, share: float
) -> None:
    """UCIPM_PLUM_THIN, recalled: half to nine in ten."""
    plan = planned(rulebook, "japanese_plum", Variety(load=Load(set=set_class)), age_years=4)
    assert plan.target.concluded["removed_share"] == share


# --- published rules for young trees ----------------------------------------------------------------------------------


@pytest.mark.parametrize("crop", ["apple", "european_pear", "peach", "apricot", "japanese_plum", "persimmon"])
def test_a_tree_keeps_none_in_its_first_summer(rulebook: Rulebook, crop: str) -> None:
    """USU_FIRSTYEAR."""
    assert planned(rulebook, crop, Variety(load=Load(fruit=9)), age_years=1).action == "remove_all"


def test_a_plum_keeps_none_in_its_second_summer(rulebook: Rulebook) -> None:
    """UCIPM_PLUM_TRAIN: two to three years of training before fruit."""
    plum = Variety(load=Load(fruit=9))
    assert planned(rulebook, "japanese_plum", plum, age_years=2, trunk_girth_in=3).action == "remove_all"
    assert planned(rulebook, "japanese_plum", plum, age_years=3, trunk_girth_in=6).action == "leave"


def test_a_second_summer_apple_keeps_six_by_its_trunk_or_by_its_age(rulebook: Rulebook) -> None:
    """UMASS_CROPLOAD: half a load on the thinnest trunk of its table, 0.75 in; none where it grew weakly."""
    apple = Variety(load=Load(fruit=40))
    assert planned(rulebook, "apple", apple, age_years=2, trunk_girth_in=2.356).keep == 6
    assert planned(rulebook, "apple", apple, age_years=2).keep == 6
    assert planned(rulebook, "apple", apple, age_years=2, weak=True).keep == 0


def test_a_two_inch_apple_keeps_122_and_81_where_it_skips_years(rulebook: Rulebook) -> None:
    """UMASS_CROPLOAD: the table of trunks."""
    for bearing, fruit in (("annual", 122), (None, 122), ("alternate", 81)):
        apple = Variety(bearing=bearing, load=Load(fruit=400))
        assert planned(rulebook, "apple", apple, age_years=6, trunk_girth_in=2 * math.pi).keep == fruit


def test_a_peach_branch_of_a_yard_keeps_six_of_forty_eight(rulebook: Rulebook) -> None:
    """MARINI_2003 and USU_THIN_2013: 36 in at 6 in; 88 percent come off."""
    plan = planned(rulebook, "peach", branches((36, 48)))
    assert (plan.keep, plan.remove) == (6, 42)
    assert plan.share_removed == pytest.approx(0.88, abs=0.0051)
