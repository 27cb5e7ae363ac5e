"""The rule language once more, written as plainly as can be: the judge of both matchers in the tests."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Mapping
from typing import Any

from service.reasoning.rule import FromFact, Rule, Test
from service.reasoning.rulebook import Rulebook

TESTS: dict[str, Callable[[Any, Any], bool]] = {
    "is": lambda value, wanted: value == wanted,
    "one_of": lambda value, wanted: any(value == one for one in wanted),
    "none_of": lambda value, wanted: all(value != one for one in wanted),
    "at_least": lambda value, wanted: not value < wanted,
    "above": lambda value, wanted: not value <= wanted,
    "at_most": lambda value, wanted: not value > wanted,
    "below": lambda value, wanted: not value >= wanted,
    "between": lambda value, wanted: not value < wanted[0] and not value > wanted[1],
    "has": lambda value, wanted: value.count(wanted) > 0,
    "has_any": lambda value, wanted: bool(set(wanted) & set(value)),
    "has_none": lambda value, wanted: set(wanted).isdisjoint(value),
}


def holds(test: Test, value: Any) -> bool:
    if test.op == "known":
        return (value is not None) == test.value
    if value is None:
        return False
    value = unicodedata.normalize("NFC", value) if isinstance(value, str) else value
    return TESTS[test.op](value, test.value)


def judge(book: Rulebook, ruleset: str, facts: Mapping[str, Any]) -> tuple[list[str], dict[str, Any]]:
    """The ids of the rules that fire, in order, and what stands concluded."""
    fired: list[str] = []
    concluded: dict[str, Any] = {}
    rules = sorted(book.rulesets[ruleset], key=lambda rule: (rule.stratum, rule.priority, rule.id))
    for stratum in sorted({rule.stratum for rule in rules}):
        known = {**facts, **{f"concluded.{name}": value for name, value in concluded.items()}}
        now = [
            rule
            for rule in rules
            if rule.stratum == stratum and all(holds(test, known.get(test.fact)) for test in rule.when)
        ]
        fired += [rule.id for rule in now]
        for rule in now:
            _conclude(book, rule, facts=facts, concluded=concluded)
    return fired, concluded


def _conclude(book: Rulebook, rule: Rule, *, facts: Mapping[str, Any], concluded: dict[str, Any]) -> None:
    for name, said in rule.conclude.items():
        value = facts[said.fact] if isinstance(said, FromFact) else said
        order = book.vocabulary.conclusions[name].more_cautious
        stands = concluded.get(name)
        if (
            stands is None
            or (order == "highest" and value > stands)
            or (order == "lowest" and value < stands)
            or (isinstance(order, tuple) and order.index(value) < order.index(stands))
        ):
            concluded[name] = value
