"""Rulebooks of many rules, facts, crops and cases, judged by both matchers."""

from __future__ import annotations

from typing import Any

from service.reasoning.rule import Test
from tests.reasoning.both import Make, fired
from tests.reasoning.made_up import FACTS, RULESET, fact, rule, rulebook, vocabulary


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


def test_five_thousand_cases_in_one_process(make: Make) -> None:
    matcher = make(rulebook(rule("g", Test("ph", "below", 5))))
    for number in range(5000):
        assert len(matcher.judge(RULESET, {"ph": number % 10}).rules) == (number % 10 < 5)
