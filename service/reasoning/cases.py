"""Made-up cases, drawn from the vocabulary and the rules with a fixed seed.

Half of the draws aim at a rule: they choose values that its tests accept, for a case of pure chance fires next to
nothing. Numbers are drawn on boundaries, beside them, at the ends of the range, and as awkward fractions.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from random import Random
from typing import Any

from service.reasoning.meaning import holds
from service.reasoning.rule import Rule, Test
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import CONCLUDED, Fact, Value

_UNKNOWN_SHARE = 0.3
_MOST_AIMED_AT = 3
_AWKWARD = (1e-7, 0.1 + 0.2, 1 / 3, 1e-300, 12345.678901234567)
_NAMES = ("Ábel", "A\u0301bel", 'a "quoted" one', "back\\slash", "two\nlines", "x" * 300)
_TRIES = 12


class CaseMaker:
    """Makes cases of one ruleset; the same seed makes the same cases."""

    def __init__(self, rulebook: Rulebook, ruleset: str, *, seed: int) -> None:
        self.random = Random(f"{ruleset} {seed}")
        self.rules: Sequence[Rule] = rulebook.rulesets.get(ruleset, ())
        testable = rulebook.vocabulary.testable(ruleset)
        self.facts = {name: fact for name, fact in sorted(testable.items()) if not name.startswith(CONCLUDED)}
        self.pools = {name: _pool(fact, self.rules) for name, fact in self.facts.items()}

    def case(self) -> dict[str, Value | None]:
        """One case."""
        chance = self.random
        case: dict[str, Value | None] = {
            name: self.value(fact) for name, fact in self.facts.items() if chance.random() > _UNKNOWN_SHARE
        }
        if self.rules and chance.random() < 0.5:
            for rule in chance.sample(list(self.rules), min(len(self.rules), chance.randint(1, _MOST_AIMED_AT))):
                self.aim(case, rule)
        return case

    def aim(self, case: dict[str, Any], rule: Rule) -> None:
        """Gives the facts that a rule tests values which its tests accept, where some turn up."""
        for name in rule.tested:
            if name in self.facts:
                tests = [test for test in rule.when if test.fact == name]
                case[name] = self.accepted(self.facts[name], tests)

    def accepted(self, fact: Fact, tests: Sequence[Test]) -> Value | None:
        """A value that all tests accept, or the last one tried."""
        value: Value | None = None
        for _ in range(_TRIES):
            if all(holds(test, value) for test in tests):
                break
            value = self.value(fact)
        return value

    def value(self, fact: Fact) -> Value:
        """One value of a fact."""
        drawn: Value = _DRAW[fact.type](self.random, fact, self.pools[fact.name])
        return drawn


def _pool(fact: Fact, rules: Sequence[Rule]) -> Sequence[Any]:
    """The values that rules compare a fact with, and for a number its neighbours and the ends of its range."""
    tests = [test for rule in rules for test in rule.when if test.fact == fact.name and test.op != "known"]
    named = [v for test in tests for v in (test.value if isinstance(test.value, tuple) else (test.value,))]
    if fact.type != "number":
        return sorted(set(named))
    near = {float(number) for number in named} | {fact.low, fact.high, *_AWKWARD}
    near |= {math.nextafter(number, side) for number in near for side in (-math.inf, math.inf)}
    return sorted(number for number in near if fact.low <= number <= fact.high)


def _number(chance: Random, fact: Fact, pool: Sequence[Any]) -> Value:
    draw = chance.random()
    if draw < 0.5:
        number = chance.choice(pool)
        return int(number) if number == int(number) and chance.random() < 0.5 else number
    return chance.uniform(fact.low, fact.high) if draw < 0.8 else chance.randint(math.ceil(fact.low), int(fact.high))


def _choice(chance: Random, fact: Fact, pool: Sequence[Any]) -> Value:
    return chance.choice(fact.values) if not pool or chance.random() < 0.5 else str(chance.choice(pool))


def _list(chance: Random, fact: Fact, pool: Sequence[Any]) -> Value:
    words = list(pool if pool and chance.random() < 0.5 else fact.values)
    return tuple(chance.sample(words, min(len(words), chance.randint(0, 4))))


def _flag(chance: Random, fact: Fact, pool: Sequence[Any]) -> Value:
    return chance.random() < 0.5


def _name(chance: Random, fact: Fact, pool: Sequence[Any]) -> Value:
    return str(chance.choice([*pool, *_NAMES]))


_DRAW: Mapping[str, Any] = {"number": _number, "choice": _choice, "list": _list, "flag": _flag, "name": _name}
