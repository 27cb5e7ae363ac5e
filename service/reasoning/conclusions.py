"""What a judging comes to: the conclusions in their fixed order, what stands concluded, and what disagrees.

A `Judgement` makes its conclusions when they are asked for: a sweep over hundreds of cultivars reads the points of all
and the sentences of few.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.reasoning.rule import FromFact, Outcome, Rule
from service.reasoning.templates import LIMIT
from service.reasoning.vocabulary import CONCLUDED, Fact, Value


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two rules or more that conclude different values for one name; `said` has the more cautious first."""

    name: str
    stands: Value
    said: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Settled:
    """What stands concluded after some rules fired, and the conflicts among them."""

    concluded: Mapping[str, Value]
    conflicts: tuple[Conflict, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Conclusion:
    """One rule that fired, the facts that it tested, and the values that its sentence needs."""

    rule: Rule
    facts: tuple[tuple[str, Value | None], ...]
    values: Mapping[str, Value]

    @property
    def outcome(self) -> Outcome:
        """What kind of conclusion it is."""
        return self.rule.outcome

    @property
    def points(self) -> int:
        """What it adds to the fit (negative for mark_down)."""
        return self.rule.points


@dataclass(frozen=True, slots=True, eq=False)
class Fired:
    """Rules that fired together, in order, with all that does not depend on the case."""

    rules: tuple[Rule, ...]
    points: int
    set_aside: bool
    forbidden: bool

    @classmethod
    def of(cls, rules: Sequence[Rule]) -> Fired:
        """The rules with their sums."""
        outcomes = {rule.outcome for rule in rules}
        points = sum(rule.points for rule in rules)
        return cls(tuple(rules), points, "set_aside" in outcomes, "forbid" in outcomes)


Case = tuple[Mapping[str, Any], ...]  # the facts of one case, in parts


def merged(case: Case) -> dict[str, Any]:
    """The facts of a case in one mapping."""
    return {name: value for part in case for name, value in part.items()}


class Judgement:
    """What rules say of one case."""

    __slots__ = ("_case", "_conclusions", "_fired", "concluded", "conflicts", "ruleset")

    def __init__(self, ruleset: str, case: Case, *, fired: Fired, settled: Settled) -> None:
        self.ruleset = ruleset
        self.concluded = settled.concluded
        self.conflicts = settled.conflicts
        self._case = case
        self._fired = fired
        self._conclusions: tuple[Conclusion, ...] | None = None

    @property
    def facts(self) -> Mapping[str, Any]:
        """The facts of the case, merged when somebody asks for them."""
        if len(self._case) > 1:
            self._case = (merged(self._case),)
        return self._case[0]

    @property
    def points(self) -> int:
        """The sum of all points."""
        return self._fired.points

    @property
    def set_aside(self) -> bool:
        """Whether a rule sets aside what was asked about."""
        return self._fired.set_aside

    @property
    def forbidden(self) -> bool:
        """Whether a rule forbids it."""
        return self._fired.forbidden

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The rules that fired, by stratum, priority and id."""
        return self._fired.rules

    @property
    def conclusions(self) -> tuple[Conclusion, ...]:
        """The conclusions by stratum, priority and id; of two that disagree, the more cautious stands first."""
        if self._conclusions is None:
            rules = cautious_first(self._fired.rules, self.conflicts)
            self._conclusions = tuple(_conclusion(rule, self.facts, self.concluded) for rule in rules)
        return self._conclusions

    def as_bytes(self) -> bytes:
        """The judgement in one form only, so that two matchers can be compared."""
        form = {
            "ruleset": self.ruleset,
            "conclusions": [
                {
                    "rule": one.rule.id,
                    "outcome": one.outcome,
                    "points": one.points,
                    "facts": one.facts,
                    "values": dict(one.values),
                }
                for one in self.conclusions
            ],
            "concluded": dict(self.concluded),
            "conflicts": [[one.name, one.stands, one.said] for one in self.conflicts],
            "points": self.points,
            "set_aside": self.set_aside,
            "forbidden": self.forbidden,
        }
        return json.dumps(form, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()


def settle(rules: Sequence[Rule], facts: Mapping[str, Any], *, conclusions: Mapping[str, Fact]) -> Settled:
    """What stands when these rules have fired; of several values for a name the most cautious stands."""
    said: dict[str, list[tuple[str, Value]]] = {}
    for rule in rules:
        for name, value in rule.conclude.items():
            said.setdefault(name, []).append((rule.id, _own(value, facts)))
    concluded, conflicts = dict[str, Value](), list[Conflict]()
    for name in sorted(said):
        entries = sorted(said[name], key=lambda entry: _rank(conclusions[name], entry[1]))
        concluded[name] = entries[0][1]
        if any(value != entries[0][1] for _, value in entries):
            conflicts.append(Conflict(name, entries[0][1], tuple(entries)))
    return Settled(concluded, tuple(conflicts))


def _rank(fact: Fact, value: Any) -> float:
    if fact.more_cautious is None:
        return 0.0
    if fact.more_cautious == "highest":
        return -float(value)
    if fact.more_cautious == "lowest":
        return float(value)
    return fact.more_cautious.index(value)


def cautious_first(rules: Sequence[Rule], conflicts: Sequence[Conflict]) -> tuple[Rule, ...]:
    """The rules with those that disagree exchanged among their own places, the more cautious first."""
    ordered = list(rules)
    for conflict in conflicts:
        rank = {rule_id: place for place, (rule_id, _) in enumerate(conflict.said)}
        places = [place for place, rule in enumerate(ordered) if rule.id in rank]
        for place, rule in zip(places, sorted((ordered[p] for p in places), key=lambda r: rank[r.id]), strict=True):
            ordered[place] = rule
    return tuple(ordered)


def _own(value: Value | FromFact, facts: Mapping[str, Any]) -> Any:
    return facts[value.fact] if isinstance(value, FromFact) else value


def _conclusion(rule: Rule, facts: Mapping[str, Any], concluded: Mapping[str, Value]) -> Conclusion:
    tested = tuple((name, _given(name, facts, concluded)) for name in rule.tested)
    values = {name: _own(value, facts) for name, value in rule.conclude.items()}
    for name in rule.placeholders:
        if name.startswith(LIMIT):
            values[name] = rule.limits[name.removeprefix(LIMIT)]
        elif name not in values:
            read = CONCLUDED + name
            values[name] = _given(read if read in rule.tested else name, facts, concluded)
    return Conclusion(rule, tested, values)


def _given(name: str, facts: Mapping[str, Any], concluded: Mapping[str, Value]) -> Any:
    if name.startswith(CONCLUDED):
        return concluded.get(name.removeprefix(CONCLUDED))
    return facts.get(name)
