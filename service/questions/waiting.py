"""Which unknown facts a rule waits for: what one more answer could change."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.vocabulary import CONCLUDED, Value


def waits_for(rule: Rule, facts: Mapping[str, Value], *, whatever: Collection[str] = ()) -> Iterable[str]:
    """The unknown facts of a rule, unless a known one rules it out; facts in `whatever` are taken to hold."""
    tests = [test for test in rule.when if test.fact not in whatever and not test.fact.startswith(CONCLUDED)]
    if any(not holds(test, facts.get(test.fact)) for test in tests if test.fact in facts or not test.needs_known):
        return ()
    return {test.fact for test in tests if test.fact not in facts}
