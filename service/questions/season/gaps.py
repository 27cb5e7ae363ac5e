"""What one more answer would change in the plan of a year."""

from __future__ import annotations

from service.questions.season.question import Facts
from service.questions.worth_asking import worth_asking
from service.reasoning.rulebook import Rulebook

_RULESETS = ("season.tree", "season.task")


def unknown_of_year(facts: Facts, rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first."""
    return worth_asking([facts], rulebook, _RULESETS, varies="task")
