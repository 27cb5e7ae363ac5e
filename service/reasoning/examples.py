"""Runs the examples that rule writers give."""

from __future__ import annotations

from service.reasoning.matcher import Matcher
from service.reasoning.rule import Example, Rule
from service.reasoning.vocabulary import CONCLUDED, Value


def fires(matcher: Matcher, rule: Rule, *, example: Example) -> bool:
    """Whether the rule fires in its example; conclusions that the example gives are taken as they are."""
    facts = {name: value for name, value in example.given.items() if not name.startswith(CONCLUDED)}
    given: dict[str, Value] = {
        name.removeprefix(CONCLUDED): value
        for name, value in example.given.items()
        if name.startswith(CONCLUDED) and value is not None
    }
    return any(fired.id == rule.id for fired in matcher.judge(rule.ruleset, facts, given=given).rules)


def fault_of(matcher: Matcher, rule: Rule, *, example: Example) -> str | None:
    """What is wrong with an example, or None when the rule does what it says."""
    if fires(matcher, rule, example=example) == example.fires:
        return None
    did, wanted = ("is silent", "should fire") if example.fires else ("fires", "should be silent")
    return f"{rule.file}:{example.line}: {rule.id}: in the example '{example.name}' the rule {did} and {wanted}"
