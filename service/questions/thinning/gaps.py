"""What could not be judged, because nobody told it: facts that rules for this crop and this plan ask about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache

from service.questions.thinning.question import VarietyPlan
from service.reasoning.meaning import holds
from service.reasoning.rule import Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_SETTLED = ("crop", "crop.kind", "target.need", "plan.action")
_CONCLUDED = ("thinning_wanted", "too_early")
Settled = tuple[tuple[str, Value | None], ...]


def unknown_of(plans: Sequence[VarietyPlan], rulebook: Rulebook) -> tuple[str, ...]:
    """What is unknown of every variety, could be told, and is tested by a rule that concerns a plan as it stands."""
    asked = {name for plan in plans for name in _asked_about(rulebook, _settled(plan))}
    facts = rulebook.vocabulary.facts
    return tuple(name for name in facts if name in asked and all(name not in plan.facts for plan in plans))


def _settled(plan: VarietyPlan) -> Settled:
    """What stands already: the crop, and what the plan came to."""
    concluded = {f"concluded.{name}": plan.plan.concluded.get(name) for name in _CONCLUDED}
    return tuple(({name: plan.facts.get(name) for name in _SETTLED} | concluded).items())


@lru_cache(maxsize=256)
def _asked_about(rulebook: Rulebook, settled: Settled) -> tuple[str, ...]:
    rules = [rule for name, rules in rulebook.rulesets.items() if name.startswith("thinning.") for rule in rules]
    tested = {test.fact for rule in rules if _concerns(rule, dict(settled)) for test in rule.when}
    facts = rulebook.vocabulary.facts.items()
    return tuple(name for name, fact in facts if fact.needs and name in tested and not name.startswith("branch."))


def _concerns(rule: Rule, known: Mapping[str, Value | None]) -> bool:
    return all(holds(test, known[test.fact]) for test in rule.when if test.fact in known)
