"""What one more answer would change: the unknown facts on which some rule waits for one of the suspects."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from service.questions.diagnosis.question import Facts
from service.questions.waiting import waits_for
from service.reasoning.rulebook import Rulebook

_RULESET = "diagnosis.exclusion"


def unknown_of_causes(suspects: Sequence[Facts], rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first, then in the order of the vocabulary."""
    rules = rulebook.rulesets.get(_RULESET, ())
    waiting = Counter(name for facts in suspects for rule in rules for name in waits_for(rule, facts))
    asked = [name for name, fact in rulebook.vocabulary.facts.items() if fact.needs and waiting[name]]
    return tuple(sorted(asked, key=lambda name: -waiting[name]))
