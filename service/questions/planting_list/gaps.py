"""What could not be judged of a list, because nobody told or published it: each thing to ask once."""

from __future__ import annotations

from collections.abc import Sequence, Set
from functools import lru_cache

from service.questions.planting_list.question import CheckedLine
from service.questions.suggestion.gaps import unknown_of_place
from service.questions.suggestion.question import Facts
from service.reasoning.conclusions import Judgement
from service.reasoning.rulebook import Rulebook

_RULESETS = ("planting-list.line", "planting-list.list")
_SITE = "site."


def not_judged(
    place: Facts, lines: Sequence[CheckedLine], judgement: Judgement, *, rulebook: Rulebook
) -> tuple[str, ...]:
    """Facts of the place that nobody told, then facts of the lines and the list that hang on one more answer."""
    known = set(judgement.facts).union(*(name.judgement.facts for line in lines for name in line.names))
    return not_judged_but(known, place, rulebook=rulebook)


def not_judged_but(known: Set[str], place: Facts, *, rulebook: Rulebook) -> tuple[str, ...]:
    """Facts of the place that nobody told, then what is asked about and is not among the facts known of the list."""
    facts, asked = rulebook.vocabulary.facts, set[str | None]()
    unknown = []
    for name in _asked_about(rulebook):
        if name not in known and facts[name].needs not in asked:
            asked.add(facts[name].needs)
            unknown.append(name)
    return (*unknown_of_place(place, rulebook), *unknown)


@lru_cache(maxsize=8)
def _asked_about(rulebook: Rulebook) -> tuple[str, ...]:
    rules = [rule for name in _RULESETS for rule in rulebook.rulesets.get(name, ())]
    tested = {test.fact for rule in rules for test in rule.when}
    facts = rulebook.vocabulary.facts.items()
    return tuple(name for name, fact in facts if fact.needs and name in tested and not name.startswith(_SITE))
