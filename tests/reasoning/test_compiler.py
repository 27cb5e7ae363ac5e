"""What the engine is given: inside the bounds, and only the tests that it does right."""

from __future__ import annotations

from typing import Any

import pytest

from service.reasoning import compiler
from service.reasoning.compiler import CHUNK, MOST_CHUNKS, MOST_PROPERTIES, Slice, compile_ruleset, crops_of, fnv
from service.reasoning.rule import Rule, Test
from service.reasoning.strata import stratify
from service.reasoning.vocabulary import CONCLUDED
from tests.reasoning.made_up import FACTS, VOCABULARY, RuleMaker, fact, rule

TESTABLE = VOCABULARY.testable("orchard.tree")


def slices(rules: list[Rule], facts: Any = TESTABLE) -> list[Slice]:
    strata = compile_ruleset(stratify(rules), facts)
    return [part for stratum in strata for parts in (stratum.general, *stratum.of_crop.values()) for part in parts]


@pytest.mark.parametrize("size", [10, 300, 1500])
def test_every_slice_stays_inside_the_bounds(size: int) -> None:
    for part in slices(RuleMaker(VOCABULARY, seed=size).rules(size)):
        assert len(part.rule_of) <= CHUNK * MOST_CHUNKS
        assert part.guards.count(":1") <= MOST_CHUNKS
        assert len(part.plain) + len(part.computed) + part.guards.count(":1") < MOST_PROPERTIES


def test_a_rulebook_of_many_facts_is_cut_by_properties() -> None:
    facts = {f"f{n}": fact(f"f{n}", "number", low=0.0, high=9.0) for n in range(500)}
    parts = slices([rule(f"r{n}", Test(f"f{n}", "above", 1)) for n in range(500)], facts)
    assert len(parts) > 2
    assert all(len(part.plain) < MOST_PROPERTIES for part in parts)


def test_each_rule_lies_in_the_slices_of_its_crops_or_in_the_general_ones() -> None:
    rules = [rule("all", Test("ph", "above", 1)), rule("two", Test("crop", "one_of", ("apple", "plum")))]
    (stratum,) = compile_ruleset(stratify(rules), TESTABLE)
    assert [len(part.rule_of) for part in stratum.general] == [1]
    assert sorted(stratum.of_crop) == ["apple", "plum"]


def test_a_rule_for_many_crops_or_against_some_is_general() -> None:
    assert crops_of(rule("r", Test("crop", "one_of", ("a", "b", "c", "d", "e")))) is None
    assert crops_of(rule("r", Test("crop", "none_of", ("apple",)))) is None
    assert crops_of(rule("r", Test("crop", "is", "apple"))) == ("apple",)


NATIVE = {"crop": "is", "ph": "at_least", "irrigated": "is"}


@pytest.mark.parametrize(
    ("test", "native"),
    [
        (Test("crop", "is", "apple"), True),
        (Test("crop", "one_of", ("apple", "plum")), True),
        (Test("crop", "one_of", tuple(f"w{n}" for n in range(13))), False),
        (Test("crop", "none_of", ("apple",)), False),
        (Test("crop", "known", True), False),
        (Test("ph", "between", (1, 2)), True),
        (Test("ph", "is", 6.5), True),
        (Test("ph", "above", 1e-05), False),
        (Test("ph", "one_of", (1, 2)), False),
        (Test("irrigated", "is", False), True),
        (Test("pests", "has", "moth"), False),
        (Test("label", "is", "x"), False),
    ],
)
def test_the_engine_does_only_the_tests_that_it_does_right(test: Test, native: bool) -> None:
    assert compiler.is_native(test, next(one for one in FACTS if one.name == test.fact)) == native


def test_long_words_and_lists_never_reach_the_engine() -> None:
    (part,) = slices([rule("r", Test("label", "is", "x"), Test("pests", "has", "moth"), Test("soil", "is", "clay"))])
    assert [name for name, _ in part.plain] == ["soil"]
    assert [test.fact for test, _ in part.computed] == ["label", "pests"]


def test_what_is_concluded_travels_as_a_plain_property() -> None:
    rules = [rule("a", Test("ph", "above", 1), conclude={"count": 2}), rule("b", Test("concluded.count", "above", 1))]
    _, second = slices(rules)
    assert [name for name, _ in second.plain] == [CONCLUDED + "count"]


def test_names_that_the_engine_would_take_for_one_are_not_handed_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(compiler, "fnv", lambda name: fnv(name) % 64)
    names = compiler._Names(compiler.RESERVED)
    given = [names.new("f") for _ in range(40)]
    assert len({fnv(name) % 64 for name in (*given, *compiler.RESERVED)}) == 40 + len(
        {fnv(name) % 64 for name in compiler.RESERVED}
    )
