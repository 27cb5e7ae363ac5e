"""Conclusions that lead to conclusions, judged by both matchers."""

from __future__ import annotations

import pytest

from service.reasoning.facts import FactFault
from service.reasoning.rule import FromFact, Test
from tests.reasoning.both import Make, fired
from tests.reasoning.made_up import RULESET, rule, rulebook

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


def test_a_judgement_does_not_change_when_the_caller_goes_on_writing(make: Make) -> None:
    case = {"ph": 4}
    judgement = make(rulebook(*CHAIN)).judge(RULESET, case)
    case["ph"] = 100
    assert judgement.conclusions[0].facts == (("ph", 4),)
