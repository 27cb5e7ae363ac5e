"""Both matchers and a plainly written third reading of the rules agree on many cases drawn by chance."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from service.reasoning.accord import AccordFault, check_accord
from service.reasoning.cases import CaseMaker
from service.reasoning.conclusions import Judgement
from service.reasoning.engine import EngineMatcher
from service.reasoning.matcher import Facts
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import Test
from tests.reasoning import naive
from tests.reasoning.made_up import RULESET, VOCABULARY, RuleMaker, rule, rulebook

RULEBOOKS = 125
CASES = 80


def test_ten_thousand_cases_are_judged_alike_byte_for_byte() -> None:
    compared, fired = 0, 0
    for seed in range(RULEBOOKS):
        maker = RuleMaker(VOCABULARY, seed=seed)
        book = rulebook(*maker.rules(maker.chance.choice((5, 20, 60, 150))))
        plain, engine, cases = PlainMatcher(book), EngineMatcher(book), CaseMaker(book, RULESET, seed=seed)
        for _ in range(CASES):
            case = cases.case()
            judged = plain.judge(RULESET, case)
            assert judged.as_bytes() == engine.judge(RULESET, case).as_bytes(), case
            assert ([one.id for one in judged.rules], dict(judged.concluded)) == naive.judge(book, RULESET, case), case
            compared, fired = compared + 1, fired + len(judged.rules)
    assert compared == 10_000
    assert fired > 3 * compared  # cases that fire nothing would prove nothing


def test_the_check_at_start_compares_two_hundred_cases() -> None:
    book = rulebook(*RuleMaker(VOCABULARY, seed=1).rules(40))
    assert check_accord(book, PlainMatcher(book), EngineMatcher(book)) == 200


class Deaf:
    """A matcher that overlooks one rule."""

    def __init__(self, matcher: PlainMatcher, deaf: PlainMatcher) -> None:
        self.matcher, self.deaf = matcher, deaf

    def judge(self, ruleset: str, facts: Facts, *, given: Mapping[str, Any] | None = None) -> Judgement:
        return (self.deaf if facts.get("ph") == 5 else self.matcher).judge(ruleset, facts, given=given)


def test_the_check_at_start_stops_a_matcher_that_overlooks_a_rule() -> None:
    whole = rulebook(rule("a", Test("ph", "at_least", 5)), rule("b", Test("rain", "known", True)))
    lacking = rulebook(rule("a", Test("ph", "above", 5)), rule("b", Test("rain", "known", True)))
    with pytest.raises(AccordFault, match=r"orchard\.tree \(rules that fire in one alone: a\)"):
        check_accord(whole, PlainMatcher(whole), Deaf(PlainMatcher(whole), PlainMatcher(lacking)))


def test_the_same_seed_makes_the_same_cases() -> None:
    book = rulebook(*RuleMaker(VOCABULARY, seed=2).rules(30))
    first, second = (CaseMaker(book, RULESET, seed=7) for _ in range(2))
    assert [first.case() for _ in range(50)] == [second.case() for _ in range(50)]
    assert CaseMaker(book, RULESET, seed=8).case() != CaseMaker(book, RULESET, seed=7).case()
