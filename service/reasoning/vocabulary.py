"""Every fact that a rule may test and every name that it may conclude, read from vocabulary.yaml.

A conclusion is to later rules what a fact is to all: they read it as `concluded.<name>`. So both are `Fact` here.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal, cast

from service.domain.errors import KnowledgeFault
from service.domain.units import UNITS
from service.reasoning.entry import Entry, read_entry
from service.reasoning.faults import Faults
from service.reasoning.limits import range_of
from service.reasoning.words import instead

Value = str | int | float | bool | tuple[str, ...]
FactType = Literal["choice", "number", "flag", "list", "name"]
FACT_TYPES: tuple[FactType, ...] = ("choice", "number", "flag", "list", "name")
CONCLUDED = "concluded."
LONGEST_CHOICE = 200  # characters

_FACT_NAME = re.compile(r"[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)*\Z")
_CONCLUSION_NAME = re.compile(r"[a-z][a-z0-9_]*\Z")
_RULESET_NAME = re.compile(r"[a-z][a-z0-9-]*(\.[a-z][a-z0-9-]*)*\Z")


@dataclass(frozen=True, slots=True, eq=False)
class Fact:
    """One name with its meaning; `more_cautious` is set for conclusions, where two rules may disagree."""

    name: str
    meaning: str
    type: FactType
    rulesets: frozenset[str]
    unit: str | None = None
    low: float = 0.0
    high: float = 0.0
    values: tuple[str, ...] = ()
    value_set: frozenset[str] = frozenset()
    always: bool = False
    computed_by: str | None = None
    needs: str | None = None
    left_to_user: bool = False
    more_cautious: tuple[str, ...] | Literal["highest", "lowest"] | None = None


@dataclass(frozen=True, slots=True)
class Vocabulary:
    """All facts by name and all conclusions by name (without `concluded.`)."""

    facts: Mapping[str, Fact]
    conclusions: Mapping[str, Fact]
    rulesets: frozenset[str]
    _by_ruleset: dict[str, Mapping[str, Fact]] = field(default_factory=dict, repr=False, compare=False)

    def testable(self, ruleset: str) -> Mapping[str, Fact]:
        """What rules of a ruleset may test: its facts, and its conclusions as `concluded.<name>`."""
        known = self._by_ruleset.get(ruleset)
        if known is None:
            everything = (*self.facts.values(), *self.conclusions.values())
            known = {fact.name: fact for fact in everything if ruleset in fact.rulesets}
            self._by_ruleset[ruleset] = known
        return known

    def concludable(self, ruleset: str) -> Mapping[str, Fact]:
        """What rules of a ruleset may conclude."""
        return {name: fact for name, fact in self.conclusions.items() if ruleset in fact.rulesets}


def read_vocabulary(path: Path, *, root: Path, choices: Mapping[str, frozenset[str]]) -> Vocabulary:
    """The vocabulary of a file; `choices` are the sets that `values: {from: …}` may name."""
    top = read_entry(path, root=root)
    top.only("facts", "conclusions")
    faults, reader = Faults(), _Reader(choices)
    facts, conclusions = dict[str, Fact](), dict[str, Fact]()
    for entry in _entries(top, "facts", faults=faults):
        with faults.kept():
            facts[str(entry.name)] = reader.fact(entry)
    for entry in _entries(top, "conclusions", faults=faults) if "conclusions" in top else ():
        with faults.kept():
            conclusions[str(entry.name)] = reader.conclusion(entry, facts)
    faults.stop_if_any()
    return Vocabulary(facts, conclusions, frozenset().union(*(fact.rulesets for fact in facts.values())))


def _entries(top: Entry, key: str, *, faults: Faults) -> list[Entry]:
    group, entries = top.inner(key), []
    for name in group.data:
        with faults.kept():
            entries.append(Entry(top.file, group.inner(name).data, name))
    return entries


_FACT_KEYS = ("meaning", "type", "values", "unit", "range", "always", "for", "computed_by", "needs",
              "left_to_user")
_CONCLUSION_KEYS = ("meaning", "type", "values", "unit", "range", "more_cautious", "for")


@dataclass(frozen=True, slots=True)
class _Reader:
    choices: Mapping[str, frozenset[str]]

    def fact(self, entry: Entry) -> Fact:
        entry.only(*_FACT_KEYS)
        name = str(entry.name)
        if not _FACT_NAME.match(name) or name.startswith((CONCLUDED, "limit.")):
            raise entry.fault("a fact is named in small letters with dots, and not concluded.… or limit.…")
        return Fact(
            name=name,
            always=entry.flag("always"),
            computed_by=entry.text("computed_by"),
            needs=entry.text("needs") if "needs" in entry else None,
            left_to_user=entry.flag("left_to_user"),
            **self._shape(entry),
        )

    def conclusion(self, entry: Entry, facts: Mapping[str, Fact]) -> Fact:
        entry.only(*_CONCLUSION_KEYS)
        name = str(entry.name)
        if not _CONCLUSION_NAME.match(name):
            raise entry.fault("a conclusion is named in small letters without dots, such as chill_verdict")
        if name in facts:
            raise entry.fault("a fact has the same name; a sentence could not tell them apart")
        shape = self._shape(entry)
        if shape["type"] == "name":
            raise entry.fault("a conclusion cannot be a name; write choice, number, flag or list", key="type")
        return Fact(name=CONCLUDED + name, more_cautious=_more_cautious(entry, shape), **shape)

    def _shape(self, entry: Entry) -> dict[str, Any]:
        kind = entry.text("type")
        if kind not in FACT_TYPES:
            raise entry.fault(f"there is no type '{kind}'{instead(kind, FACT_TYPES)}", key="type")
        shape: dict[str, Any] = {"meaning": entry.text("meaning"), "type": kind, "rulesets": _rulesets(entry)}
        if kind == "number":
            shape["unit"] = _unit(entry)
            shape["low"], shape["high"] = range_of(entry)
        elif "unit" in entry or "range" in entry:
            raise entry.fault(f"only a number has a unit and a range, and this is a {kind}")
        if kind in ("choice", "list"):
            shape["values"] = self._values(entry)
            shape["value_set"] = frozenset(shape["values"])
        elif "values" in entry:
            raise entry.fault(f"only a choice or a list has values, and this is a {kind}", key="values")
        return shape

    def _values(self, entry: Entry) -> tuple[str, ...]:
        given = entry.data.get("values")
        if not isinstance(given, dict):
            values = entry.words("values")
            if any(len(value) > LONGEST_CHOICE for value in values):
                raise entry.fault(f"a value is longer than {LONGEST_CHOICE} characters; shorten it", key="values")
            return values
        source = entry.inner("values")
        source.only("from")
        group = source.text("from")
        if group not in self.choices:
            raise source.fault(f"values cannot come from '{group}'{instead(group, self.choices)}", key="from")
        return tuple(sorted(self.choices[group]))


def _rulesets(entry: Entry) -> frozenset[str]:
    names = entry.words("for")
    for name in names:
        if not _RULESET_NAME.match(name):
            raise entry.fault(f"'{name}' is no ruleset; a ruleset is a folder, such as suggestion.cultivar", key="for")
    return frozenset(names)


def _unit(entry: Entry) -> str:
    unit = entry.text("unit")
    if unit not in UNITS:
        raise entry.fault(f"there is no unit '{unit}'{instead(unit, UNITS)}", key="unit")
    return unit


def _more_cautious(entry: Entry, shape: Mapping[str, Any]) -> tuple[str, ...] | Literal["highest", "lowest"] | None:
    if "more_cautious" not in entry:
        return None
    if shape["type"] == "number":
        order = entry.text("more_cautious")
        if order not in ("highest", "lowest"):
            raise entry.fault(f"'more_cautious' of a number is highest or lowest, not '{order}'", key="more_cautious")
        return cast("Literal['highest', 'lowest']", order)
    if shape["type"] != "choice":
        raise entry.fault("only a choice or a number can be more cautious than another", key="more_cautious")
    words = entry.words("more_cautious")
    if set(words) != shape["value_set"]:
        raise entry.fault("'more_cautious' must list each of the values once, the most cautious first",
                          key="more_cautious")  # fmt: skip
    return words


def unknown_ruleset(name: str, *, file: str, vocabulary: Vocabulary) -> KnowledgeFault:
    """The fault of a rule file that lies in a folder for which there are no facts."""
    hint = instead(name, vocabulary.rulesets)
    return KnowledgeFault(file, 1, f"no fact in vocabulary.yaml is `for` the ruleset '{name}'{hint}")
