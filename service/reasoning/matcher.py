"""The one interface of both matchers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Protocol

from service.reasoning.conclusions import Judgement
from service.reasoning.facts import FactFault
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value | None]
JudgeOwn = Callable[[Facts, Facts], Judgement]


class Matcher(Protocol):
    """Applies the rules of a ruleset to the facts of a case; a missing fact or None is unknown."""

    def judge(self, ruleset: str, facts: Facts, *, given: Mapping[str, Value] | None = None) -> Judgement:
        """What the rules say; `given` are conclusions (without `concluded.`) taken as they are, whatever rules say."""
        ...

    def sharing(self, ruleset: str, shared: Facts) -> JudgeOwn:
        """Judges many cases that have these facts in common; what it returns takes the rest of each case in two parts.

        The first part is what lasts: the same mapping, never changed, whenever the same thing is judged, so that a
        matcher need look at it once only. No part may give a fact another value than an earlier one.
        """
        ...


__all__ = ["FactFault", "Facts", "JudgeOwn", "Matcher"]
