"""What could not be judged, because nobody told it: facts that rules for this crop ask about."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from service.questions.thinning.question import VarietyPlan
from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook

_ABOUT_THE_CROP = ("crop", "crop.kind")


def unknown_of(plans: Sequence[VarietyPlan], rulebook: Rulebook) -> tuple[str, ...]:
    """What is unknown of every variety, could be told, and is tested by a rule that concerns the crop."""
    facts = plans[0].facts
    asked = _asked_about(rulebook, *(str(facts[name]) for name in _ABOUT_THE_CROP))
    return tuple(name for name in asked if all(name not in plan.facts for plan in plans))


@lru_cache(maxsize=64)
def _asked_about(rulebook: Rulebook, crop: str, kind: str) -> tuple[str, ...]:
    rules = [rule for name, rules in rulebook.rulesets.items() if name.startswith("thinning.") for rule in rules]
    tested = {test.fact for rule in rules if _concerns(rule, crop, kind) for test in rule.when}
    facts = rulebook.vocabulary.facts.items()
    return tuple(name for name, fact in facts if fact.needs and name in tested and not name.startswith("branch."))


def _concerns(rule: Rule, crop: str, kind: str) -> bool:
    known = dict(zip(_ABOUT_THE_CROP, (crop, kind), strict=True))
    return all(holds(test, known[test.fact]) for test in rule.when if test.fact in known)
