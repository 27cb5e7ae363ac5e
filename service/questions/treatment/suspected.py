"""The cause to treat, out of the suspects of a diagnosis."""

from __future__ import annotations

from collections.abc import Sequence

from service.domain.label_use import Cause
from service.reasoning.rulebook import Rulebook

_NAMED_FROM = "diagnosis.certainty.possible"


def likeliest(suspects: Sequence[tuple[str, float]], rulebook: Rulebook) -> Cause:
    """The likeliest suspect, and whether one that looks like it is likely enough to be named as well."""
    ranked = sorted(suspects, key=lambda suspect: -suspect[1])
    (first, confidence), others = ranked[0], ranked[1:]
    disorder, floor = rulebook.catalogue.disorders.get(first), rulebook.limits[_NAMED_FROM].value
    is_open = any(
        likelihood >= floor and disorder is not None and disorder.like(other) is not None
        for other, likelihood in others
    )
    return Cause(first, confidence=confidence, look_alike_open=is_open)
