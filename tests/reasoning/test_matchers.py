"""One meaning in two matchers: every case here is put to both."""

from __future__ import annotations

import math
from typing import Any

import pytest

from service.domain.errors import FruitwrightError
from service.reasoning.matcher import FactFault
from service.reasoning.rule import Test
from tests.reasoning.both import Make, fired
from tests.reasoning.made_up import RULESET, rule, rulebook


def one(make: Make, op: Any, value: Any, **facts: Any) -> bool:
    """Whether a rule with one test on the one given fact fires."""
    (name,) = facts
    return fired(make, rule("r", Test(name, op, value)), **facts) == ["r"]


def test_a_case_that_no_rule_matches_has_no_conclusions(make: Make) -> None:
    assert fired(make, rule("r", Test("ph", "below", 5)), ph=7) == []


def test_an_empty_case_is_judged(make: Make) -> None:
    assert fired(make, rule("r", Test("ph", "below", 5))) == []


def test_none_means_the_same_as_a_missing_fact(make: Make) -> None:
    assert one(make, "known", False, ph=None)
    assert not one(make, "known", True, ph=None)
    assert fired(make, rule("r", Test("ph", "known", False))) == ["r"]


@pytest.mark.parametrize(
    ("op", "value"),
    [("is", 5), ("one_of", (5, 6)), ("none_of", (5, 6)), ("at_least", 0), ("above", 0), ("at_most", 0), ("below", 0),
     ("between", (-5, 5)), ("known", True)],
)  # fmt: skip
def test_unknown_satisfies_no_test_on_a_number(make: Make, op: Any, value: Any) -> None:
    assert not one(make, op, value, ph=None)


@pytest.mark.parametrize(("op", "value"), [("has", "moth"), ("has_any", ("moth",)), ("has_none", ("moth",))])
def test_unknown_satisfies_no_test_on_a_list(make: Make, op: Any, value: Any) -> None:
    assert not one(make, op, value, pests=None)


def test_none_of_holds_for_another_word(make: Make) -> None:
    assert one(make, "none_of", ("clay",), soil="sand")
    assert not one(make, "none_of", ("clay",), soil="clay")


@pytest.mark.parametrize(
    "facts",
    [{"ph": "4"}, {"ph": True}, {"ph": math.nan}, {"ph": math.inf}, {"ph": 1e300}, {"ph": 1000.5}, {"irrigated": 1},
     {"soil": "chalk"}, {"soil": 1}, {"soil": ["clay"]}, {"pests": ["moth"]}, {"pests": ("wolf",)}, {"label": ""},
     {"pests": ("moth", "moth")}, {"label": 7}, {"nonsense": 1}, {"concluded.verdict": "good"}],
    ids=str,
)  # fmt: skip
def test_a_fact_that_cannot_be_is_refused_by_name(make: Make, facts: Any) -> None:
    (name,) = facts
    with pytest.raises(FactFault, match=f"the fact '{name}'"):
        make(rulebook(rule("r", Test("rain", "below", 5)))).judge(RULESET, facts)


def test_an_unknown_ruleset_is_refused_by_name(make: Make) -> None:
    with pytest.raises(FactFault, match=r"'orchard\.hedge'"):
        make(rulebook()).judge("orchard.hedge", {})


def test_a_ruleset_without_rules_concludes_nothing(make: Make) -> None:
    assert make(rulebook()).judge(RULESET, {"ph": 6}).conclusions == ()


def test_a_very_small_number_in_a_case(make: Make) -> None:
    assert one(make, "above", 0, ph=1e-05)
    assert one(make, "above", 0, ph=1e-300)
    assert one(make, "below", 0, ph=-1e-300)


def test_a_very_small_number_in_a_rule(make: Make) -> None:
    assert one(make, "above", 1e-05, ph=2e-05)
    assert not one(make, "above", 1e-05, ph=1e-06)
    assert one(make, "is", 1e-05, ph=1e-05)


def test_neighbouring_numbers_are_told_apart(make: Make) -> None:
    for boundary in (0.1 + 0.2, 6.5, 1 / 3, 100.0):
        assert one(make, "at_least", boundary, ph=boundary)
        assert not one(make, "at_least", boundary, ph=math.nextafter(boundary, -math.inf))
        assert not one(make, "above", boundary, ph=boundary)
        assert one(make, "above", boundary, ph=math.nextafter(boundary, math.inf))


def test_whole_and_broken_numbers_compare_by_value(make: Make) -> None:
    assert one(make, "is", 5, ph=5.0)
    assert one(make, "is", 5.0, ph=5)
    assert one(make, "at_least", 6.5, ph=7)
    assert one(make, "one_of", (5, 6), ph=6.0)


def test_negative_numbers(make: Make) -> None:
    assert one(make, "above", -5, ph=-4.5)
    assert not one(make, "above", -5, ph=-6)
    assert one(make, "is", 0, ph=-0.0)


def test_both_ends_of_between_count(make: Make) -> None:
    for number, holds in ((7.9, False), (8, True), (10, True), (12, True), (12.1, False)):
        assert one(make, "between", (8, 12), ph=number) == holds


@pytest.mark.parametrize("word", ["pšenice", 'a"b', "a\\b", "é"])
def test_awkward_words_are_equal_to_themselves(make: Make, word: str) -> None:
    assert one(make, "is", word, soil=word)
    assert one(make, "one_of", (word, "sand"), soil=word)


@pytest.mark.parametrize("name", ["two\nlines", 'a "quoted" one', "x" * 70_000, "back\\slash", "\u0000"])
def test_awkward_names_are_equal_to_themselves(make: Make, name: str) -> None:
    assert one(make, "is", name, label=name)
    assert not one(make, "is", name + "x", label=name)


def test_a_name_is_the_same_however_its_accent_is_coded(make: Make) -> None:
    assert one(make, "is", "\u00c1bel", label="A\u0301bel")


def test_a_word_that_begins_another_is_another_word(make: Make) -> None:
    assert not one(make, "is", "cla", soil="clay")
    assert not one(make, "is", "clay", soil="cla")


def test_lists(make: Make) -> None:
    assert not one(make, "has", "moth", pests=())
    assert one(make, "has", "moth", pests=("scab", "moth"))
    assert one(make, "has_any", ("moth", "aphid"), pests=("moth",))
    assert not one(make, "has_any", ("moth", "aphid"), pests=("scab",))
    assert one(make, "has_none", ("moth", "aphid"), pests=("scab",))
    assert one(make, "has_none", ("moth",), pests=())
    assert not one(make, "has_none", ("moth", "aphid"), pests=("scab", "aphid"))


def test_flags(make: Make) -> None:
    assert one(make, "is", True, irrigated=True)
    assert not one(make, "is", True, irrigated=False)
    assert one(make, "is", False, irrigated=False)
    assert not one(make, "is", False, irrigated=None)


def test_a_rule_fires_once_though_two_of_its_alternatives_are_tested_twice(make: Make) -> None:
    tests = (Test("soil", "one_of", ("clay", "sand")), Test("soil", "one_of", ("clay", "cla")))
    assert fired(make, rule("r", *tests), soil="clay") == ["r"]


def test_every_fault_is_one_of_ours() -> None:
    assert issubclass(FactFault, FruitwrightError)
