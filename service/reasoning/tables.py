"""For each fact a table from its value to the rules that the value leaves standing.

The rules of a ruleset are numbered, and a set of rules is a whole number with one bit a rule. A table answers a value
with the set of rules none of whose tests on this fact fails; the rules that fire are those that every table leaves.
So the work for a case grows with its facts, not with the rules: a number is found among its boundaries by bisection,
a word in a dictionary. The meaning of the tests comes from meaning.py, applied once to a value in each place that can
make a difference.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from service.reasoning.facts import is_allowed, refused
from service.reasoning.meaning import holds, same_text
from service.reasoning.rule import Rule, Test
from service.reasoning.vocabulary import Fact

Look = Callable[[Any], int]
_MOST_KEPT = 4096  # values of a fact seen before; a table that grew past it starts anew


def look_into(fact: Fact, rules: Sequence[Rule]) -> Look:
    """The table of one fact as a function from a value to the rules that it leaves.

    It refuses what the fact cannot be, and lets through the TypeError of a value that no dictionary can hold.
    """
    tests = [(1 << place, test) for place, rule in enumerate(rules) for test in rule.when if test.fact == fact.name]
    return _MAKERS[fact.type](fact, _Standing((1 << len(rules)) - 1, tests))


class _Standing:
    def __init__(self, everything: int, tests: Sequence[tuple[int, Test]]) -> None:
        self.everything, self.tests = everything, tests

    def __call__(self, value: Any) -> int:
        standing = self.everything
        for bit, test in self.tests:
            if not holds(test, value):
                standing &= ~bit
        return standing


class _Seen(dict[Any, int]):
    """A table that fills itself with the values that it is asked for; a hit costs one look into a dictionary."""

    def __init__(self, fact: Fact, left_by: Callable[[Any], int]) -> None:
        super().__init__()
        self.fact, self.left_by = fact, left_by
        self.of_nought_and_one: dict[Any, int] = {}

    def __missing__(self, value: Any) -> int:
        # false and true are equal to 0 and 1 and would be found in their place, so these stand by themselves
        if value in (0, 1) and value.__class__ is not bool and value in self.of_nought_and_one:
            return self.of_nought_and_one[value]
        if not is_allowed(self.fact, value):
            raise refused(self.fact, value)
        left = self.left_by(value)
        if len(self) >= _MOST_KEPT:
            self.clear()
        return (self.of_nought_and_one if value in (0, 1) else self).setdefault(value, left)


def _seen(fact: Fact, standing: _Standing) -> Look:
    return _Seen(fact, standing).__getitem__


def _number(fact: Fact, standing: _Standing) -> Look:
    cuts = sorted({number for _, test in standing.tests for number in _cuts(test)})
    table, unknown = [standing(value) for value in _one_of_each(cuts)], standing(None)

    def left_by(value: Any) -> int:
        return unknown if value is None else table[bisect_left(cuts, value) + bisect_right(cuts, value)]

    return _Seen(fact, left_by).__getitem__


def _cuts(test: Test) -> tuple[Any, ...]:
    if test.op in ("one_of", "none_of"):
        return tuple(test.value)  # type: ignore[arg-type]
    return (test.value,) if test.op == "is" else test.boundaries


def _one_of_each(cuts: Sequence[float]) -> list[float]:
    # one value below the first cut, then each cut and one value between it and the next, then one above the last
    values: list[float] = [-math.inf]
    for cut, after in zip(cuts, [*cuts, math.inf][1:], strict=True):
        values += [cut, after if after == math.inf else cut / 2 + after / 2]
    return values


def _flag(fact: Fact, standing: _Standing) -> Look:
    if_true, if_false, unknown = standing(True), standing(False), standing(None)

    def look(value: Any) -> int:
        if value is True:
            return if_true
        if value is False:
            return if_false
        if value is None:
            return unknown
        raise refused(fact, value)

    return look


def _name(fact: Fact, standing: _Standing) -> Look:
    named = {value for _, test in standing.tests for value in _named(test)}
    table = {value: standing(value) for value in named}
    unknown, another = standing(None), standing("")

    def look(value: Any) -> int:
        if isinstance(value, str) and value:
            return table.get(same_text(value), another) if table else another
        if value is None:
            return unknown
        raise refused(fact, value)

    return look


def _named(test: Test) -> tuple[Any, ...]:
    return test.value if isinstance(test.value, tuple) else (test.value,)


_MAKERS: Mapping[str, Callable[[Fact, _Standing], Look]] = {
    "choice": _seen, "list": _seen, "number": _number, "flag": _flag, "name": _name,
}  # fmt: skip
