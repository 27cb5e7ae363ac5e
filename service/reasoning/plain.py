"""The plain matcher: the rule language in plain Python, the oracle of the engine and the faster one in sweeps.

A case goes once through the tables of its facts (tables.py), which leaves the rules of all strata that no fact
contradicts; then stratum by stratum, what is concluded thins out the rest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.reasoning.conclusions import Case, Fired, Judgement, Settled, merged, settle
from service.reasoning.facts import FactFault, is_allowed, no_ruleset, refused, strange
from service.reasoning.matcher import Facts, JudgeOwn
from service.reasoning.rule import FromFact, Rule
from service.reasoning.rulebook import Rulebook
from service.reasoning.tables import Look, look_into
from service.reasoning.vocabulary import CONCLUDED, Fact, Value

Names = tuple[str, ...]
_MOST_KEPT = 20_000  # sets of rules or of names met before; a store of them that grew past it starts anew


class PlainMatcher:
    """Judges cases by tables from values to rules."""

    def __init__(self, rulebook: Rulebook) -> None:
        self._rulesets = {name: _Ruleset(rulebook, name) for name in sorted(rulebook.vocabulary.rulesets)}

    def judge(self, ruleset: str, facts: Facts, *, given: Mapping[str, Value] | None = None) -> Judgement:
        """What the rules of a ruleset say of a case."""
        try:
            rules = self._rulesets[ruleset]
        except KeyError:
            raise no_ruleset(ruleset) from None
        return rules.judge(facts, given)

    def sharing(self, ruleset: str, shared: Facts) -> JudgeOwn:
        """Judges many cases that have these facts in common, each by the facts of its own."""
        if ruleset not in self._rulesets:
            raise no_ruleset(ruleset)
        return self._rulesets[ruleset].sharing(shared)


@dataclass(frozen=True, slots=True, eq=False)
class _Seen:
    """Facts that last, kept so that no others get their id: which they are, and the rules that they leave standing."""

    facts: Facts
    shape: int
    standing: int


class _Ruleset:
    def __init__(self, rulebook: Rulebook, name: str) -> None:
        self.name = name
        self.rules = rulebook.rulesets.get(name, ())
        self.conclusions: Mapping[str, Fact] = rulebook.vocabulary.concludable(name)
        self.facts = rulebook.vocabulary.testable(name)
        tables = {fact.name: look_into(fact, self.rules) for fact in self.facts.values()}
        self.looks = {fact: look for fact, look in tables.items() if not fact.startswith(CONCLUDED)}
        self.concluded_looks = {name: tables[CONCLUDED + name] for name in self.conclusions}
        self.unknown = _where_unknown_matters(self.looks, self.rules)
        self.strata = _strata(self.rules, self.concluded_looks)
        self.kept: dict[int, tuple[Fired, Settled | None]] = {}
        self.seen: dict[int, _Seen] = {}
        self.shapes: dict[Names, int] = {}
        self.wanting: dict[tuple[int, int, Names], int] = {}

    def judge(self, facts: Facts, given: Mapping[str, Value] | None) -> Judgement:
        standing = self.left_by(facts) & self.left_by_all_but(tuple(facts))
        return self.judged((dict(facts),), standing, self.checked(given) if given else None)

    def sharing(self, shared: Facts) -> JudgeOwn:
        common, names, wanting = self.left_by(shared), tuple(shared), self.wanting
        shape = self.shape_of(names)

        def judge_own(lasting: Facts, own: Facts) -> Judgement:
            seen = self.seen.get(id(lasting)) or self.look_at(lasting)
            standing = common & seen.standing & self.left_by(own)
            shapes = shape, seen.shape, tuple(own)
            wanted = wanting.get(shapes)
            if wanted is None:
                wanted = self.keep_wanting(shapes, (*names, *lasting, *own))
            return self.judged((shared, lasting, own), standing & wanted, None)

        return judge_own

    def look_at(self, lasting: Facts) -> _Seen:
        if len(self.seen) >= _MOST_KEPT:
            self.seen.clear()
        return self.seen.setdefault(id(lasting), _Seen(lasting, self.shape_of(tuple(lasting)), self.left_by(lasting)))

    def shape_of(self, names: Names) -> int:
        return self.shapes.setdefault(names, len(self.shapes))

    def keep_wanting(self, shapes: tuple[int, int, Names], known: Names) -> int:
        if len(self.wanting) >= _MOST_KEPT:
            self.wanting.clear()
        return self.wanting.setdefault(shapes, self.left_by_all_but(known))

    def judged(self, case: Case, standing: int, given: Mapping[str, Value] | None) -> Judgement:
        fired, (bundle, settled) = 0, self.outcome(0, case)
        for number, (members, looks) in enumerate(self.strata):
            these = standing & members
            if number:
                concluded = {**settled.concluded, **given} if given else settled.concluded
                for name, look in looks:
                    these &= look(concluded.get(name))
            if these:
                fired |= these
                bundle, settled = self.outcome(fired, case)
        if given:
            settled = Settled({**settled.concluded, **given}, settled.conflicts)
        return Judgement(self.name, case, fired=bundle, settled=settled)

    def left_by(self, case: Mapping[str, Any]) -> int:
        """The rules that these facts leave standing."""
        standing, looks = -1, self.looks
        try:
            for name, value in case.items():
                standing &= looks[name](value)
        except (KeyError, TypeError):
            raise self.fault_of(case) from None
        return standing

    def left_by_all_but(self, known: Names) -> int:
        """The rules that stand though nothing is known but these facts."""
        standing, names = -1, frozenset(known)
        for name, if_unknown in self.unknown:
            if name not in names:
                standing &= if_unknown
        return standing

    def fault_of(self, case: Mapping[str, Any]) -> FactFault:
        for name, value in case.items():
            if name not in self.looks:
                return strange(name, ruleset=self.name)
            if not is_allowed(self.facts[name], value):
                return refused(self.facts[name], value)
        raise AssertionError("a case without a fault was refused")

    def outcome(self, fired: int, case: Case) -> tuple[Fired, Settled]:
        bundle, settled = self.kept.get(fired) or self.keep(fired)
        return bundle, settled or settle(bundle.rules, merged(case), conclusions=self.conclusions)

    def keep(self, fired: int) -> tuple[Fired, Settled | None]:
        rules = [rule for place, rule in enumerate(self.rules) if fired >> place & 1]
        of_case = any(isinstance(value, FromFact) for rule in rules for value in rule.conclude.values())
        settled = None if of_case else settle(rules, {}, conclusions=self.conclusions)
        if len(self.kept) >= _MOST_KEPT:
            self.kept.clear()
        return self.kept.setdefault(fired, (Fired.of(rules), settled))

    def checked(self, given: Mapping[str, Value]) -> Mapping[str, Value]:
        for name, value in given.items():
            if name not in self.concluded_looks:
                raise strange(CONCLUDED + name, ruleset=self.name)
            if not is_allowed(self.facts[CONCLUDED + name], value):
                raise refused(self.facts[CONCLUDED + name], value)
        return given


def _where_unknown_matters(looks: Mapping[str, Look], rules: tuple[Rule, ...]) -> list[tuple[str, int]]:
    tested = {name for rule in rules for name in rule.tested}
    return [(name, look(None)) for name, look in looks.items() if name in tested]


def _strata(rules: tuple[Rule, ...], looks: Mapping[str, Look]) -> list[tuple[int, list[tuple[str, Look]]]]:
    members, read = dict[int, int](), dict[int, set[str]]()
    for place, rule in enumerate(rules):
        members[rule.stratum] = members.get(rule.stratum, 0) | 1 << place
        read.setdefault(rule.stratum, set()).update(rule.reads)
    return [(members[number], [(name, looks[name]) for name in sorted(read[number])]) for number in sorted(members)]
