"""The thinning plan as plain data, on made-up trees."""

from __future__ import annotations

from typing import Any

import pytest

from service.domain.crop_load import Branch, Load
from service.present.thinning import thinning_advice
from service.questions.thinning import ThinningQuestion, Variety
from service.reasoning.rulebook import Rulebook
from tests.questions.made_up_trees import answer, orchard


@pytest.fixture(scope="module")
def rulebook(tmp_path_factory: pytest.TempPathFactory) -> Rulebook:
    return orchard(tmp_path_factory.mktemp("orchard"))


def told(rulebook: Rulebook, *varieties: Variety, crop: str = "peach") -> dict[str, Any]:
    return thinning_advice(answer(rulebook, ThinningQuestion(crop, varieties)), rulebook=rulebook)


def test_one_variety_stands_at_the_top_with_its_branches(rulebook: Rulebook) -> None:
    plan = told(rulebook, Variety(load=Load((Branch(36, 0.6, 48),))))["answer"]
    assert (plan["keep"], plan["remove"], plan["share_removed"], plan["spacing_in"]) == (6, 42, 0.88, 6)
    assert plan["spacing_cm"] == 15.2
    assert plan["branches"][0]["keep_by_third"] == {"inner": 3, "middle": 2, "outer": 1}
    assert plan["branches"][0]["bounds"] == [{"by": "spacing", "fruit": 6}]
    assert plan["varieties"] == []


def test_steps_are_sentences_in_the_order_of_work(rulebook: Rulebook) -> None:
    plan = told(rulebook, Variety(load=Load((Branch(36, 0.6, 48),))))["answer"]
    assert [step["text"] for step in plan["steps"]] == ["Begin at the trunk.", "Pick up what fell."]


def test_doubts_assumptions_and_the_next_measure_stand_apart(rulebook: Rulebook) -> None:
    plan = told(rulebook, Variety(load=Load((Branch(12, None, 90),))))["answer"]
    assert [one["rule"] for one in plan["doubts"]] == ["crowded"]
    assert [one["rule"] for one in plan["assumed"]] == ["age-unknown"]
    assert [one["rule"] for one in plan["one_more_measurement"]] == ["girth-next"]


def test_what_is_unknown_is_null(rulebook: Rulebook) -> None:
    plan = told(rulebook, Variety(), crop="fig")["answer"]
    assert (plan["keep"], plan["remove"], plan["share_removed"], plan["spacing_in"]) == (None, None, None, None)
    assert plan["branches"] == []


def test_several_varieties_are_added_up_and_told_in_the_order_of_work(rulebook: Rulebook) -> None:
    late = Variety("apple.october", load=Load((Branch(36, 0.6, 30),)))
    early = Variety("apple.august", load=Load((Branch(36, 0.6, 60),)))
    plan = told(rulebook, late, early, crop="apple")["answer"]
    assert (plan["fruit"], plan["keep"], plan["remove"], plan["action"]) == (90, 12, 78, "thin")
    assert plan["steps"] == []
    assert [(one["name"], one["remove"]) for one in plan["varieties"]] == [("August", 54), ("October", 24)]
    assert plan["varieties"][0]["steps"] != []


def test_a_sum_with_an_unknown_in_it_is_unknown(rulebook: Rulebook) -> None:
    counted = Variety("apple.october", load=Load((Branch(36, 0.6, 30),)))
    plan = told(rulebook, counted, Variety("apple.august"), crop="apple")["answer"]
    assert (plan["fruit"], plan["remove"]) == (None, None)


def test_conclusions_say_which_variety_and_which_branch_they_are_about(rulebook: Rulebook) -> None:
    slender = Variety("peach.july", load=Load((Branch(36, 0.45, 48),)))
    concluded = told(rulebook, slender)["conclusions"]
    assert {one["rule"]: one["about"] for one in concluded}["bends"] == "peach.july/branch-1"
    assert {one["rule"]: one["about"] for one in concluded}["too-many"] == "peach.july"
