"""The rulebook that the service ships with, taken as a whole."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from service.reasoning.accord import check_accord
from service.reasoning.check import check
from service.reasoning.engine import EngineMatcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, load_rulebook

FOLDER = Path(__file__).resolve().parents[2] / "rules"


@cache
def book() -> Rulebook:
    return load_rulebook(FOLDER)


def test_the_rulebook_is_sound() -> None:
    assert check(FOLDER) == []


def test_both_matchers_agree_on_two_thousand_cases_of_the_real_rules() -> None:
    assert check_accord(book(), PlainMatcher(book()), EngineMatcher(book()), cases=2000) == 2000


@pytest.mark.parametrize("ruleset", sorted(book().rulesets))
def test_every_conclusion_of_a_ruleset_is_made_by_some_rule_of_it(ruleset: str) -> None:
    made = {name for rule in book().rulesets[ruleset] for name in rule.conclude}
    assert set(book().vocabulary.concludable(ruleset)) - made == set()


def test_every_limit_of_the_suggestion_rules_is_used_by_a_rule_or_named_in_code() -> None:
    used = {name for rule in book().rules.values() for name in rule.limits}
    code = "".join(path.read_text(encoding="utf-8") for path in (FOLDER.parent / "service").rglob("*.py"))
    in_code = {name for name in book().limits if name in code}
    assert [name for name in book().limits if name.startswith("suggestion.") and name not in used | in_code] == []


@pytest.mark.parametrize("ruleset", ["suggestion.cultivar", "suggestion.rootstock", "suggestion.site"])
def test_each_ruleset_of_the_suggestion_has_rules(ruleset: str) -> None:
    assert book().rulesets[ruleset]
