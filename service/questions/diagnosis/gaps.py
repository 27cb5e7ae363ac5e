"""What one more answer would change: the unknown facts on which some rule waits for one of the suspects."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from service.questions.diagnosis.question import Facts
from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED

_RULESET = "diagnosis.exclusion"


def unknown_of_causes(suspects: Sequence[Facts], rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first, then in the order of the vocabulary."""
    rules = rulebook.rulesets.get(_RULESET, ())
    waiting = Counter(name for facts in suspects for rule in rules for name in _missing(rule, facts))
    asked = [name for name, fact in rulebook.vocabulary.facts.items() if fact.needs and waiting[name]]
    return tuple(sorted(asked, key=lambda name: -waiting[name]))


def _missing(rule: Rule, facts: Facts) -> Iterable[str]:
    """The unknown facts of a rule, unless a known one rules it out."""
    tests = [test for test in rule.when if not test.fact.startswith(CONCLUDED)]
    if any(not holds(test, facts.get(test.fact)) for test in tests if test.fact in facts or not test.needs_known):
        return ()
    return {test.fact for test in tests if test.fact not in facts}
