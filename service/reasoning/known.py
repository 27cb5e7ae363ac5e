"""What a rule may refer to: the facts and conclusions of its ruleset, limits, sources and cautions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.reasoning.cautions import Caution
from service.reasoning.entry import Entry
from service.reasoning.limits import Limit
from service.reasoning.meaning import same_text
from service.reasoning.templates import LIMIT, placeholders
from service.reasoning.vocabulary import CONCLUDED, Fact, Value, Vocabulary
from service.reasoning.words import instead


@dataclass(frozen=True, slots=True)
class Known:
    """The references that rules are read against."""

    vocabulary: Vocabulary
    limits: Mapping[str, Limit]
    sources: frozenset[str]
    cautions: Mapping[str, Caution]

    def testable_fact(self, entry: Entry, name: str, *, ruleset: str) -> Fact:
        """The fact or conclusion that a rule or an example names, or a fault with the nearest right word."""
        testable = self.vocabulary.testable(ruleset)
        if name in testable:
            return testable[name]
        if name in self.vocabulary.facts:
            cases = ", ".join(sorted(self.vocabulary.facts[name].rulesets))
            raise entry.fault(f"the cases of {ruleset} do not carry the fact '{name}' (it is for {cases})", key=name)
        raise entry.fault(f"there is no fact '{name}' in vocabulary.yaml{instead(name, testable)}", key=name)

    def limit(self, entry: Entry, name: Any, *, unit: str | None) -> Limit:
        """A limit of the unit that is asked for."""
        if name not in self.limits:
            raise entry.fault(f"there is no limit '{name}' in limits.yaml{instead(name, self.limits)}", key="limit")
        limit = self.limits[name]
        if limit.unit != unit:
            wanted = f"in {unit}" if unit else "no number"
            raise entry.fault(f"the limit '{name}' is in {limit.unit}, and what it is compared with is {wanted}",
                              key="limit")  # fmt: skip
        return limit


def refuse_braces(entry: Entry, key: str) -> str:
    """A text that is shown as it stands, so without placeholders."""
    text = entry.text(key)
    if "{" in text or "}" in text:
        raise entry.fault(f"'{key}' is shown as it stands; placeholders are for the sentence under then", key=key)
    return text


def names_in(entry: Entry, key: str) -> tuple[str, ...]:
    """The placeholders of the sentence under a key."""
    try:
        return placeholders(entry.text(key))
    except ValueError as fault:
        raise entry.fault(f"the sentence cannot be read: {fault}", key=key) from None


def is_limit(name: str) -> bool:
    """Whether a placeholder names a limit.

    >>> is_limit("limit.suggestion.fit.start"), is_limit("crop")
    (True, False)
    """
    return name.startswith(LIMIT)


def value_of(entry: Entry, key: str, *, fact: Fact, raw: Any) -> Value:
    """A literal that stands for one value of a fact, checked against its type, set or range."""
    if fact.type == "flag":
        if isinstance(raw, bool):
            return raw
        raise entry.fault(f"'{fact.name}' is true or false, not {raw!r}", key=key)
    if fact.type == "number":
        return _number_of(entry, key, fact=fact, raw=raw)
    if not isinstance(raw, str):
        raise entry.fault(f"'{fact.name}' takes words, not {raw!r}", key=key)
    if fact.type == "name":
        return same_text(raw)
    if raw not in fact.value_set:
        raise entry.fault(f"'{raw}' is not among the values of '{fact.name}'{instead(raw, fact.value_set)}", key=key)
    return raw


def _number_of(entry: Entry, key: str, *, fact: Fact, raw: Any) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise entry.fault(f"'{fact.name}' is a number in {fact.unit}, not {raw!r}", key=key)
    if not fact.low <= raw <= fact.high:
        raise entry.fault(f"{raw} lies outside the range of '{fact.name}', [{fact.low}, {fact.high}] {fact.unit}",
                          key=key)  # fmt: skip
    return raw


def whole_value(entry: Entry, key: str, *, fact: Fact) -> Value:
    """A literal for a whole value: a list for a list, else one value."""
    raw = entry.data[key]
    if fact.type != "list":
        return value_of(entry, key, fact=fact, raw=raw)
    if not isinstance(raw, list):
        raise entry.fault(f"'{fact.name}' is a list; write {key}: [one, two] or {key}: []", key=key)
    return tuple(str(value_of(entry, key, fact=fact, raw=item)) for item in raw)


def conclusion_name(name: str) -> str:
    """The bare name of a conclusion.

    >>> conclusion_name("concluded.training")
    'training'
    """
    return name.removeprefix(CONCLUDED)
