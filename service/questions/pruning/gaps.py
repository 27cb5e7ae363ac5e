"""What one more answer would change in a pruning plan."""

from __future__ import annotations

from service.questions.pruning.question import Facts
from service.questions.worth_asking import worth_asking
from service.reasoning.rulebook import Rulebook

_RULESETS = ("pruning.tree", "pruning.season", "pruning.cut")


def unknown_of_tree(facts: Facts, rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first."""
    return worth_asking([facts], rulebook, _RULESETS, varies="cut")
