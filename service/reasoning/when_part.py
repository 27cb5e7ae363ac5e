"""The `when` of a rule: lines of the form `fact: {test: value}`, all of which must hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from service.domain.errors import KnowledgeFault
from service.knowledge import strict_yaml
from service.reasoning.entry import Entry
from service.reasoning.known import Known, value_of
from service.reasoning.meaning import OPS_OF
from service.reasoning.rule import Op, Test, TestValue
from service.reasoning.vocabulary import Fact
from service.reasoning.words import instead

MOST_TESTS = 40  # the engine underneath holds 60 conditions a rule; a readable rule has fewer than ten
_LISTS: tuple[Op, ...] = ("one_of", "none_of", "has_any", "has_none")
_NUMBERS: tuple[Op, ...] = ("at_least", "above", "at_most", "below")


def read_when(entry: Entry, *, ruleset: str, known: Known) -> tuple[Test, ...]:
    """The tests of a rule, in the order in which they stand."""
    lines = entry.inner("when")
    if not lines.data:
        raise entry.fault("'when' is empty; write at least one line, such as crop: {is: peach}", key="when")
    tests: list[Test] = []
    for name in lines.data:
        fact = known.testable_fact(lines, name, ruleset=ruleset)
        tests.extend(_Line(lines, fact, known).tests())
    if len(tests) > MOST_TESTS:
        raise entry.fault(f"{len(tests)} tests are more than a rule may have ({MOST_TESTS}); split it", key="when")
    return tuple(tests)


@dataclass(frozen=True, slots=True)
class _Line:
    lines: Entry
    fact: Fact
    known: Known

    def tests(self) -> list[Test]:
        allowed = OPS_OF[self.fact.type]
        raw = self.lines.data[self.fact.name]
        if not isinstance(raw, strict_yaml.Mapping) or not raw:
            raise self.fault(f"write a test, such as {self.fact.name}: {{{allowed[0]}: …}}, not {raw!r}")
        tests = [self.test(op, value) for op, value in raw.items()]
        if len(tests) > 1 and not all(test.needs_known for test in tests):
            raise self.fault("'known: false' cannot hold together with another test on the same fact")
        if self.fact.always and not all(test.needs_known for test in tests):
            raise self.fault(f"'{self.fact.name}' is never unknown, so 'known: false' never holds")
        return tests

    def test(self, op: Any, raw: Any) -> Test:
        allowed = OPS_OF[self.fact.type]
        if op not in allowed:
            raise self.fault(f"'{op}' does not test a {self.fact.type}{instead(op, allowed)}")
        if op == "known":
            if not isinstance(raw, bool):
                raise self.fault(f"'known' is true or false, not {raw!r}")
            return Test(self.fact.name, op, raw)
        if op == "between":
            return self.between(raw)
        if op in _LISTS:
            return Test(self.fact.name, op, self.several(op, raw))
        value, limits = self.one(raw)
        return Test(self.fact.name, op, value, limits)

    def one(self, raw: Any) -> tuple[TestValue, tuple[str, ...]]:
        if not isinstance(raw, strict_yaml.Mapping):
            return value_of(self.lines, self.fact.name, fact=self.fact, raw=raw), ()
        entry = Entry(self.lines.file, raw, self.lines.name)
        entry.only("limit")
        limit = self.known.limit(entry, raw.get("limit"), unit=self.fact.unit)
        return value_of(entry, "limit", fact=self.fact, raw=limit.value), (limit.name,)

    def several(self, op: str, raw: Any) -> TestValue:
        if not isinstance(raw, list) or not raw:
            raise self.fault(f"'{op}' takes a list, such as {op}: [one, two]")
        values: Sequence[Any] = [self.one(item)[0] for item in raw if not isinstance(item, dict)]
        if len(values) != len(raw):
            raise self.fault(f"'{op}' takes plain values; a limit stands in at_least, above, at_most, below, between")
        if len(set(values)) != len(values):
            raise self.fault(f"'{op}' names a value twice; keep one")
        return tuple(values)

    def between(self, raw: Any) -> Test:
        if not isinstance(raw, list) or len(raw) != 2:
            raise self.fault("'between' takes two numbers, such as between: [8, 12]; both ends count")
        (low, of_low), (high, of_high) = self.one(raw[0]), self.one(raw[1])
        if not low <= high:  # type: ignore[operator]
            raise self.fault(f"'between' runs from low to high, not from {low} to {high}")
        return Test(self.fact.name, "between", (low, high), of_low + of_high)  # type: ignore[arg-type]

    def fault(self, what: str) -> KnowledgeFault:
        return self.lines.fault(what, key=self.fact.name)
