"""What could not be judged, because nobody told or published it. Unknown is never guessed, so it is said."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from service.questions.suggestion.question import Candidate, Facts
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_SITE = "site."
_SERVES_FOR: Mapping[str, str] = {"site.chill_hours": "site.chill_portions", "site.chill_portions": "site.chill_hours"}
_FOLLOWS_FROM: Mapping[str, tuple[str, ...]] = {
    "site.frost_free_days": ("site.last_spring_frost_day", "site.first_autumn_frost_day")
}


def unknown_of_place(place: Mapping[str, Value], rulebook: Rulebook) -> tuple[str, ...]:
    """The facts of the place that rules ask about and nobody told, in the order of the vocabulary.

    Chill in one count serves for the other, and what follows from other facts is not asked for beside them.
    """
    unknown = [name for name in _asked_about(rulebook) if name.startswith(_SITE) and name not in place]
    return tuple(
        name
        for name in unknown
        if _SERVES_FOR.get(name) not in place and not any(source in unknown for source in _FOLLOWS_FROM.get(name, ()))
    )


def unknown_of_candidate(candidate: Candidate, rulebook: Rulebook) -> tuple[str, ...]:
    """The facts of a cultivar that rules ask about and nobody published, in the order of the vocabulary."""
    unknown = (name for name in _asked_about(rulebook) if not name.startswith(_SITE) and name not in candidate.facts)
    return tuple(name for name in unknown if _could_be_known(name, candidate.facts))


@lru_cache(maxsize=8)
def _asked_about(rulebook: Rulebook) -> tuple[str, ...]:
    rules = [rule for name, rules in rulebook.rulesets.items() if name.startswith("suggestion.") for rule in rules]
    tested = {test.fact for rule in rules for test in rule.when}
    return tuple(name for name, fact in rulebook.vocabulary.facts.items() if fact.needs and name in tested)


def _could_be_known(name: str, facts: Facts) -> bool:
    """A comparison of chill is missed only where both sides are known; else the missing side is named already."""
    if name != "chill.measure":
        return True
    return "chill.basis" in facts and ("site.chill_hours" in facts or "site.chill_portions" in facts)
