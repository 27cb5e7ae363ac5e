"""The examples of a rule: at least one that fires, one that is silent, and one on each boundary."""

from __future__ import annotations

from collections.abc import Sequence

from service.reasoning.entry import Entry
from service.reasoning.known import Known, whole_value
from service.reasoning.rule import Example, Test
from service.reasoning.vocabulary import Value
from service.reasoning.words import instead

UNKNOWN = "unknown"


def read_examples(entry: Entry, *, ruleset: str, known: Known) -> tuple[Example, ...]:
    """The examples as they stand."""
    examples: list[Example] = []
    for item in entry.each("examples"):
        item.only("name", "given", "expect")
        name = item.text("name")
        if any(name == other.name for other in examples):
            raise item.fault(f"two examples are called '{name}'; give each a name of its own", key="name")
        expect = item.text("expect")
        if expect not in ("fires", "silent"):
            hint = instead(expect, ("fires", "silent"))
            raise item.fault(f"'expect' is fires or silent, not '{expect}'{hint}", key="expect")
        given = _given(item.inner("given"), ruleset=ruleset, known=known)
        examples.append(Example(name, given, expect == "fires", item.line()))
    return tuple(examples)


def _given(entry: Entry, *, ruleset: str, known: Known) -> dict[str, Value | None]:
    given: dict[str, Value | None] = {}
    for name, raw in entry.data.items():
        fact = known.testable_fact(entry, name, ruleset=ruleset)
        if raw == UNKNOWN and UNKNOWN not in fact.value_set:  # a choice may have a value of that name
            given[name] = None
        else:
            given[name] = whole_value(entry, name, fact=fact)
    return given


def check_coverage(entry: Entry, *, tests: Sequence[Test], examples: Sequence[Example]) -> None:
    """Refuses examples that would let a wrong rule pass."""
    if not any(example.fires for example in examples):
        raise entry.fault("no example fires; add one with expect: fires", key="examples")
    if all(example.fires for example in examples):
        raise entry.fault("no example is silent; add one with expect: silent", key="examples")
    for test in tests:
        for boundary in test.boundaries:
            if not any(_on(example, test.fact, boundary) for example in examples):
                raise entry.fault(
                    f"no example stands exactly on the boundary of '{test.fact}'; add one with {test.fact}: {boundary}",
                    key="examples",
                )


def _on(example: Example, fact: str, boundary: float) -> bool:
    value = example.given.get(fact)
    return value is not None and value == boundary
