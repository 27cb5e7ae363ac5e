"""One meaning in two matchers: every case here is put to both."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import pytest

from service.domain.errors import FruitwrightError
from service.reasoning.engine import EngineMatcher
from service.reasoning.matcher import FactFault, Matcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import FromFact, Rule, Test
from service.reasoning.rulebook import Rulebook
from tests.reasoning.made_up import FACTS, RULESET, fact, rule, rulebook, vocabulary

Make = Callable[[Rulebook], Matcher]


@pytest.fixture(params=[PlainMatcher, EngineMatcher], ids=["plain", "engine"])
def make(request: pytest.FixtureRequest) -> Make:
    return request.param  # type: ignore[no-any-return]


def fired(make: Make, *rules: Rule, **facts: Any) -> list[str]:
    return [one.id for one in make(rulebook(*rules)).judge(RULESET, facts).rules]


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
    with pytest.raises(FactFault, match="'orchard.hedge'"):
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


CHAIN = (
    rule("a", Test("ph", "below", 5), conclude={"verdict": "bad"}),
    rule("b", Test("concluded.verdict", "is", "bad"), conclude={"count": 3}),
    rule("c", Test("concluded.count", "at_least", 3), Test("concluded.verdict", "known", True)),
    rule("n", Test("concluded.count", "known", False)),
    rule("u", Test("rain", "above", 0), conclude={"late": True}),
)


def test_conclusions_chain_and_tell_what_they_rest_on(make: Make) -> None:
    judgement = make(rulebook(*CHAIN)).judge(RULESET, {"ph": 4})
    assert [(one.rule.id, one.facts) for one in judgement.conclusions] == [
        ("a", (("ph", 4),)),
        ("b", (("concluded.verdict", "bad"),)),
        ("c", (("concluded.count", 3), ("concluded.verdict", "bad"))),
    ]
    assert judgement.concluded == {"verdict": "bad", "count": 3}


def test_a_rule_that_asks_for_no_conclusion_waits_for_all_who_might_conclude(make: Make) -> None:
    assert fired(make, *CHAIN, ph=4) == ["a", "b", "c"]
    assert fired(make, *CHAIN, ph=6) == ["n"]


def test_a_conclusion_that_nobody_reads_stands_in_the_answer(make: Make) -> None:
    assert make(rulebook(*CHAIN)).judge(RULESET, {"ph": 6, "rain": 1}).concluded == {"late": True}


def test_two_rules_may_conclude_the_same(make: Make) -> None:
    rules = (
        rule("a", Test("ph", "below", 5), conclude={"verdict": "bad"}),
        rule("b", Test("ph", "below", 6), conclude={"verdict": "bad"}),
        rule("c", Test("concluded.verdict", "is", "bad")),
    )
    judgement = make(rulebook(*rules)).judge(RULESET, {"ph": 1})
    assert [one.rule.id for one in judgement.conclusions] == ["a", "b", "c"]
    assert judgement.conflicts == ()


def test_a_conclusion_can_take_the_value_of_a_fact(make: Make) -> None:
    rules = (
        rule("a", Test("ph", "known", True), conclude={"depth": FromFact("ph")}),
        rule("b", Test("concluded.depth", "below", 5)),
    )
    assert fired(make, *rules, ph=4.5) == ["a", "b"]
    assert fired(make, *rules, ph=5) == ["a"]


def test_order_is_stratum_then_priority_then_id(make: Make) -> None:
    rules = [
        rule("z", Test("ph", "known", True), priority=1),
        rule("y", Test("ph", "known", True), priority=200, conclude={"late": True}),
        rule("b", Test("ph", "known", True)),
        rule("a", Test("ph", "known", True)),
        rule("first-but-later", Test("concluded.late", "is", True), priority=0),
    ]
    for order in (rules, rules[::-1]):
        assert fired(make, *order, ph=1) == ["z", "a", "b", "y", "first-but-later"]


def test_a_conclusion_that_is_given_stands_whatever_the_rules_say(make: Make) -> None:
    matcher = make(rulebook(*CHAIN))
    judgement = matcher.judge(RULESET, {"ph": 4}, given={"count": 0})
    assert [one.id for one in judgement.rules] == ["a", "b"]
    assert judgement.concluded["count"] == 0
    with pytest.raises(FactFault, match=r"concluded\.count"):
        matcher.judge(RULESET, {}, given={"count": 101})
    with pytest.raises(FactFault, match=r"concluded\.nonsense"):
        matcher.judge(RULESET, {}, given={"nonsense": 1})


def test_three_hundred_rules_with_the_same_condition(make: Make) -> None:
    assert len(fired(make, *[rule(f"r{n}", Test("ph", "below", 5)) for n in range(300)], ph=1)) == 300


def test_nine_hundred_rules_true_at_once(make: Make) -> None:
    assert len(fired(make, *[rule(f"r{n}", Test("ph", "above", n)) for n in range(900)], ph=1000)) == 900


def test_three_thousand_rules_that_apply_to_one_case(make: Make) -> None:
    rules = [rule(f"r{n}", Test("rain", "above", n), Test("ph", "known", True)) for n in range(3000)]
    assert len(fired(make, *rules, rain=1500.5, ph=1)) == 1501


def test_a_rule_book_that_tests_three_hundred_facts_at_once(make: Make) -> None:
    facts = [fact(f"f{n}", "number", low=0.0, high=10.0) for n in range(300)]
    rules = [rule(f"r{n}", Test(f"f{n}", "above", 5), Test(f"f{(n + 1) % 300}", "above", 5)) for n in range(300)]
    matcher = make(rulebook(*rules, words=vocabulary(facts)))
    case = {f"f{n}": 9 if n < 101 else 1 for n in range(300)}
    assert len(matcher.judge(RULESET, case).rules) == 100


def test_six_hundred_crops_with_rules_of_their_own(make: Make) -> None:
    crops = tuple(f"c{n}" for n in range(600))
    words = vocabulary([fact("crop", "choice", values=crops), *FACTS[1:]])
    rules = [
        rule(f"r{n}-{low}", Test("crop", "is", crop), Test("ph", "above", low))
        for n, crop in enumerate(crops)
        for low in (0, 1)
    ]
    judged = make(rulebook(*rules, words=words)).judge(RULESET, {"crop": "c599", "ph": 1})
    assert [one.id for one in judged.rules] == ["r599-0"]


BY_CROP = (
    rule("every", Test("ph", "below", 5)),
    rule("apple", Test("crop", "is", "apple")),
    rule("stone", Test("crop", "one_of", ("peach", "plum"))),
    rule("others", Test("crop", "none_of", ("apple", "peach"))),
)


def test_rules_of_a_crop_fire_for_that_crop_alone(make: Make) -> None:
    assert fired(make, *BY_CROP, crop="apple", ph=4) == ["apple", "every"]
    assert fired(make, *BY_CROP, crop="plum", ph=4) == ["every", "others", "stone"]
    assert fired(make, *BY_CROP, crop="quince") == ["others"]


def test_without_a_crop_the_rules_for_all_still_run(make: Make) -> None:
    assert fired(make, *BY_CROP, ph=4) == ["every"]


def test_a_case_leaves_nothing_behind_for_the_next(make: Make) -> None:
    matcher = make(rulebook(*BY_CROP))
    cases: list[dict[str, Any]] = [{"crop": "apple", "ph": 4}, {"crop": "apple"}, {"ph": 4}]
    assert [[one.id for one in matcher.judge(RULESET, case).rules] for case in cases] == [
        ["apple", "every"], ["apple"], ["every"]
    ]  # fmt: skip


def test_a_judgement_does_not_change_when_the_caller_goes_on_writing(make: Make) -> None:
    case = {"ph": 4}
    judgement = make(rulebook(*CHAIN)).judge(RULESET, case)
    case["ph"] = 100
    assert judgement.conclusions[0].facts == (("ph", 4),)


def test_five_thousand_cases_in_one_process(make: Make) -> None:
    matcher = make(rulebook(rule("g", Test("ph", "below", 5))))
    for number in range(5000):
        assert len(matcher.judge(RULESET, {"ph": number % 10}).rules) == (number % 10 < 5)


def test_every_fault_is_one_of_ours() -> None:
    assert issubclass(FactFault, FruitwrightError)
