"""Every example of every rule, on both matchers, as a test of its own."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from service.reasoning.engine import EngineMatcher
from service.reasoning.examples import fault_of
from service.reasoning.matcher import Matcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rule import Example, Rule
from service.reasoning.rulebook import Rulebook, load_rulebook

FOLDER = Path(__file__).resolve().parents[2] / "rules"


@cache
def book() -> Rulebook:
    return load_rulebook(FOLDER)


@cache
def matcher(which: type[PlainMatcher] | type[EngineMatcher]) -> Matcher:
    return which(book())


EXAMPLES = [
    pytest.param(rule, example, id=f"{rule.id}: {example.name}")
    for rule in book().rules.values()
    for example in rule.examples
]


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_the_rule_does_in_its_example_what_it_says(rule: Rule, example: Example) -> None:
    for which in (PlainMatcher, EngineMatcher):
        assert fault_of(matcher(which), rule, example=example) is None
