"""What one more answer would change: the unknown facts on which some rule waits that nothing else speaks against."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Value


def worth_asking(
    cases: Sequence[Mapping[str, Value]], rulebook: Rulebook, rulesets: Iterable[str], *, varies: str | None = None
) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first, then in the order of the vocabulary.

    A question has one case or, where it weighs several things, one for each. `varies` is the fact that differs from
    judgement to judgement of one case, such as the kind of cut.
    """
    rules = [rule for name in rulesets for rule in rulebook.rulesets.get(name, ())]
    waiting = Counter(name for facts in cases for rule in rules for name in _missing(rule, facts, varies))
    asked = [name for name, fact in rulebook.vocabulary.facts.items() if fact.needs and waiting[name]]
    return tuple(sorted(asked, key=lambda name: -waiting[name]))


def _missing(rule: Rule, facts: Mapping[str, Value], varies: str | None) -> Iterable[str]:
    """The unknown facts of a rule, unless a known one rules it out."""
    tests = [test for test in rule.when if test.fact != varies and not test.fact.startswith(CONCLUDED)]
    if any(not holds(test, facts.get(test.fact)) for test in tests if test.fact in facts or not test.needs_known):
        return ()
    return {test.fact for test in tests if test.fact not in facts}
