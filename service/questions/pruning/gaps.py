"""What one more answer would change: the unknown facts on which some rule waits that nothing else speaks against."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from service.questions.pruning.question import Facts
from service.questions.waiting import waits_for
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook

_RULESETS = ("pruning.tree", "pruning.season", "pruning.cut")
_VARIES = "cut"


def unknown_of_tree(facts: Facts, rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first, then in the order of the vocabulary."""
    waiting = Counter(name for rule in _rules(rulebook) for name in waits_for(rule, facts, whatever=(_VARIES,)))
    asked = [name for name, fact in rulebook.vocabulary.facts.items() if fact.needs and waiting[name]]
    return tuple(sorted(asked, key=lambda name: -waiting[name]))


def _rules(rulebook: Rulebook) -> Iterator[Rule]:
    for name in _RULESETS:
        yield from rulebook.rulesets.get(name, ())
