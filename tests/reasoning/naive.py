"""The rule language once more, written as plainly as can be: the judge of both matchers in the tests."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from typing import Any

from service.reasoning.rule import FromFact, Rule, Test
from service.reasoning.rulebook import Rulebook


def holds(test: Test, value: Any) -> bool:
    if test.op == "known":
        return (value is not None) == test.value
    if value is None:
        return False
    value = unicodedata.normalize("NFC", value) if isinstance(value, str) else value
    wanted: Any = test.value
    match test.op:
        case "is":
            return bool(value == wanted)
        case "one_of":
            return any(value == one for one in wanted)
        case "none_of":
            return all(value != one for one in wanted)
        case "at_least":
            return bool(value >= wanted)
        case "above":
            return bool(value > wanted)
        case "at_most":
            return bool(value <= wanted)
        case "below":
            return bool(value < wanted)
        case "between":
            return bool(wanted[0] <= value <= wanted[1])
        case "has":
            return wanted in value
        case "has_any":
            return bool(set(wanted) & set(value))
        case "has_none":
            return not set(wanted) & set(value)
    raise AssertionError(test.op)


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
