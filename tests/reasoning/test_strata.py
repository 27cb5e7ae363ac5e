"""The order of inference."""

from __future__ import annotations

import pytest

from service.domain.errors import KnowledgeFault
from service.reasoning.faults import RulebookFaults
from service.reasoning.rule import Test
from service.reasoning.strata import stratify
from tests.reasoning.made_up import rule

ACID = Test("ph", "below", 5)


def test_a_rule_that_reads_a_conclusion_comes_after_all_that_make_it() -> None:
    rules = [
        rule("a-reader", Test("concluded.verdict", "known", True), conclude={"late": True}),
        rule("first", ACID, conclude={"verdict": "bad"}),
        rule("second", Test("concluded.count", "above", 1), conclude={"verdict": "fair"}),
        rule("maker-of-count", ACID, conclude={"count": 2}),
        rule("last", Test("concluded.late", "is", True)),
    ]
    strata = {one.id: one.stratum for one in stratify(rules)}
    assert strata == {"first": 0, "maker-of-count": 0, "second": 1, "a-reader": 2, "last": 3}


def test_a_circle_is_refused_with_the_rules_in_it() -> None:
    circle = [
        rule("a", Test("concluded.count", "known", True), conclude={"verdict": "bad"}),
        rule("b", Test("concluded.verdict", "known", False), conclude={"count": 1}),
    ]
    with pytest.raises(KnowledgeFault, match="the rules wait for one another: a waits for b waits for a"):
        stratify(circle)


def test_a_rule_that_waits_for_itself_is_refused() -> None:
    with pytest.raises(KnowledgeFault, match="a waits for a"):
        stratify([rule("a", Test("concluded.count", "known", True), conclude={"count": 1})])


def test_a_rule_that_reads_what_nobody_concludes_is_refused() -> None:
    with pytest.raises(RulebookFaults, match=r"no rule of orchard\.tree concludes 'count'"):
        stratify([rule("a", Test("concluded.count", "known", False))])


def test_the_order_does_not_depend_on_the_order_of_reading() -> None:
    rules = [rule(name, ACID, priority=priority) for name, priority in (("c", 1), ("a", 2), ("b", 2), ("d", 1))]
    for order in (rules, rules[::-1], sorted(rules, key=lambda one: one.id)):
        assert [one.id for one in stratify(order)] == ["c", "d", "a", "b"]
