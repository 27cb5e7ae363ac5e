"""What one more answer would change: the unknown facts on which some rule waits for one of the suspects."""

from __future__ import annotations

from collections.abc import Sequence

from service.questions.diagnosis.question import Facts
from service.questions.worth_asking import worth_asking
from service.reasoning.rulebook import Rulebook


def unknown_of_causes(suspects: Sequence[Facts], rulebook: Rulebook) -> tuple[str, ...]:
    """The facts worth asking for, those on which most rules wait first."""
    return worth_asking(suspects, rulebook, ("diagnosis.exclusion",))
