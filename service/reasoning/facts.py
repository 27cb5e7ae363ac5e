"""The facts of a case, checked against the vocabulary before any rule sees them.

A fact that fails here is a programming error of whoever computed it, so it is said by name and never judged.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from service.domain.errors import FruitwrightError
from service.reasoning.vocabulary import Fact


class FactFault(FruitwrightError):
    """A case carries a fact that its ruleset does not know, or a value that the fact cannot have."""


def refused(fact: Fact, value: object) -> FactFault:
    """The fault of a value that a fact cannot have."""
    allowed: Mapping[str, str] = {
        "choice": "one of its values in the vocabulary",
        "list": "a tuple of its values in the vocabulary, each once",
        "number": f"a number from {fact.low} to {fact.high} {fact.unit}",
        "flag": "true or false",
        "name": "a text that is not empty",
    }
    return FactFault(f"the fact '{fact.name}' is {value!r:.80} and must be {allowed[fact.type]}")


def strange(name: object, *, ruleset: str) -> FactFault:
    """The fault of a fact that a ruleset does not know."""
    return FactFault(f"the fact '{name}' is not for the ruleset '{ruleset}'")


def no_ruleset(name: str) -> FactFault:
    """The fault of asking a ruleset that is not there."""
    return FactFault(f"there is no ruleset '{name}'")


def is_allowed(fact: Fact, value: Any) -> bool:
    """Whether a fact can have a value; unknown (None) is always allowed."""
    return value is None or _ALLOWED[fact.type](fact, value)


def _number(fact: Fact, value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and fact.low <= value <= fact.high


def _list(fact: Fact, value: Any) -> bool:
    if not isinstance(value, tuple) or not all(isinstance(item, str) for item in value):
        return False
    return len(set(value)) == len(value) and fact.value_set.issuperset(value)


_ALLOWED: Mapping[str, Callable[[Fact, Any], bool]] = {
    "choice": lambda fact, value: isinstance(value, str) and value in fact.value_set,
    "number": _number,
    "flag": lambda fact, value: isinstance(value, bool),
    "list": _list,
    "name": lambda fact, value: isinstance(value, str) and value != "",
}
