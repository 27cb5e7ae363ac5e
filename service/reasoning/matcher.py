"""The one interface of both matchers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from service.reasoning.conclusions import Judgement
from service.reasoning.facts import FactFault
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value | None]


class Matcher(Protocol):
    """Applies the rules of a ruleset to the facts of a case; a missing fact or None is unknown."""

    def judge(self, ruleset: str, facts: Facts, *, given: Mapping[str, Value] | None = None) -> Judgement:
        """What the rules say; `given` are conclusions (without `concluded.`) taken as they are, whatever rules say."""
        ...


__all__ = ["FactFault", "Facts", "Matcher"]
