"""Judgements: conflicts, points, outcomes, and the values that sentences need."""

from __future__ import annotations

import json

import pytest

from service.reasoning.audit import Audit
from service.reasoning.conclusions import Judgement
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import FromFact, Rule, Test
from tests.reasoning.made_up import RULESET, rule, rulebook

ACID, WET = Test("ph", "below", 5), Test("rain", "above", 10)


def judged(*rules: Rule) -> Judgement:
    return PlainMatcher(rulebook(*rules)).judge(RULESET, {"ph": 4, "rain": 20, "label": "Old Tree"})


def test_of_two_that_disagree_the_more_cautious_stands_and_comes_first() -> None:
    judgement = judged(
        rule("a-good", ACID, conclude={"verdict": "good"}),
        rule("between", ACID),
        rule("z-bad", WET, conclude={"verdict": "bad"}),
        rule("reader", Test("concluded.verdict", "is", "bad")),
    )
    assert judgement.concluded == {"verdict": "bad"}
    assert [one.rule.id for one in judgement.conclusions] == ["z-bad", "between", "a-good", "reader"]
    (conflict,) = judgement.conflicts
    assert (conflict.name, conflict.stands) == ("verdict", "bad")
    assert conflict.said == (("z-bad", "bad"), ("a-good", "good"))


def test_of_numbers_the_highest_or_lowest_stands_as_the_vocabulary_says() -> None:
    judgement = judged(
        rule("a", ACID, conclude={"count": 2, "depth": 9}),
        rule("b", ACID, conclude={"count": 3, "depth": FromFact("ph")}),
    )
    assert judgement.concluded == {"count": 3, "depth": 4}
    assert [conflict.name for conflict in judgement.conflicts] == ["count", "depth"]


def test_without_an_order_of_caution_the_first_stands() -> None:
    judgement = judged(rule("a", ACID, conclude={"form": "fan"}), rule("b", ACID, conclude={"form": "bush"}))
    assert judgement.concluded == {"form": "fan"}
    assert judgement.conflicts[0].said == (("a", "fan"), ("b", "bush"))


def test_two_that_agree_are_no_conflict() -> None:
    judgement = judged(rule("a", ACID, conclude={"count": 2}), rule("b", WET, conclude={"count": 2.0}))
    assert judgement.conflicts == ()


def test_a_later_stratum_can_still_be_the_more_cautious() -> None:
    judgement = judged(
        rule("a", ACID, conclude={"verdict": "good", "late": True}),
        rule("b", Test("concluded.late", "is", True), conclude={"verdict": "bad"}),
    )
    assert judgement.concluded["verdict"] == "bad"
    assert [one.rule.id for one in judgement.conclusions] == ["b", "a"]


def test_points_add_up_and_outcomes_are_told() -> None:
    judgement = judged(
        rule("a", ACID, outcome="prefer", points=12),
        rule("b", ACID, outcome="mark_down", points=-5),
        rule("c", ACID, outcome="set_aside"),
    )
    assert (judgement.points, judgement.set_aside, judgement.forbidden) == (7, True, False)
    assert [(one.outcome, one.points) for one in judgement.conclusions] == [
        ("prefer", 12), ("mark_down", -5), ("set_aside", 0)
    ]  # fmt: skip
    assert judged(rule("a", ACID, outcome="forbid")).forbidden


def test_a_conclusion_carries_what_its_sentence_needs_and_no_more() -> None:
    judgement = judged(
        rule("a", ACID, conclude={"verdict": "bad"}),
        rule(
            "b",
            Test("concluded.verdict", "is", "bad"),
            WET,
            text="{label} {verdict} {count} {limit.tall}",
            placeholders=("label", "verdict", "count", "limit.tall"),
            conclude={"count": 2},
            limits={"tall": 12},
        ),
    )
    second = judgement.conclusions[1]
    assert second.values == {"label": "Old Tree", "verdict": "bad", "count": 2, "limit.tall": 12}
    assert second.facts == (("concluded.verdict", "bad"), ("rain", 20))


def test_a_fact_that_is_unknown_is_shown_as_unknown() -> None:
    assert judged(rule("a", Test("soil", "known", False))).conclusions[0].facts == (("soil", None),)


def test_the_bytes_hold_all_that_two_matchers_must_agree_on() -> None:
    form = json.loads(judged(rule("a", ACID, outcome="prefer", points=3, conclude={"verdict": "bad"})).as_bytes())
    assert form == {
        "ruleset": RULESET,
        "conclusions": [
            {"rule": "a", "outcome": "prefer", "points": 3, "facts": [["ph", 4]], "values": {"verdict": "bad"}}
        ],
        "concluded": {"verdict": "bad"},
        "conflicts": [],
        "points": 3,
        "set_aside": False,
        "forbidden": False,
    }


def test_the_audit_counts_rules_and_conflicts_and_logs_each_kind_of_conflict_once(
    caplog: pytest.LogCaptureFixture,
) -> None:
    audit = Audit()
    judgement = judged(rule("a", ACID, conclude={"verdict": "good"}), rule("b", WET, conclude={"verdict": "bad"}))
    for _ in range(3):
        audit.note(judgement)
    assert audit.fired == {"a": 3, "b": 3}
    assert audit.conflicts == {("verdict", "a", "b"): 3}
    assert [record.getMessage() for record in caplog.records] == ["rules disagree on verdict: a, b"]
