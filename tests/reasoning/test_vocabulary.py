"""The vocabulary, limits and cautions: what is malformed there stops the start."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.domain.errors import KnowledgeFault
from tests.reasoning.made_up import written
from tests.reasoning.written_out import FILES

FACT = "  tree.age: {meaning: age, type: number, unit: years, range: [0, 200], for: [orchard.tree], computed_by: us}\n"
NAMED = "  tree.word: {meaning: m, type: choice, values: [a, b], for: [orchard.tree], computed_by: us}\n"


def faults(folder: Path, **files: str) -> str:
    with pytest.raises(KnowledgeFault) as caught:
        written(folder / "rules", {**FILES, **{f"{name}.yaml": text for name, text in files.items()}})
    return str(caught.value)


def with_facts(*facts: str) -> str:
    return FILES["vocabulary.yaml"].replace("conclusions:\n", "".join(facts) + "conclusions:\n")


WRONG_FACTS = {
    "an unknown type": (FACT.replace("number", "numbr"), "no type 'numbr'; the nearest right word is 'number'"),
    "an unknown unit": (FACT.replace("years", "yers"), "there is no unit 'yers'; the nearest right word is 'years'"),
    "no range": (FACT.replace("range: [0, 200], ", ""), "'range' must be two numbers from low to high"),
    "a range upside down": (FACT.replace("[0, 200]", "[200, 0]"), "'range' must be two numbers from low to high"),
    "a range without end": (FACT.replace("200]", "1e16]"), "'range' goes beyond the numbers that can be told apart"),
    "no meaning": (FACT.replace("meaning: age, ", ""), "'meaning' must be a text"),
    "nobody who computes it": (FACT.replace(", computed_by: us", ""), "'computed_by' must be a text"),
    "for nothing": (FACT.replace("[orchard.tree]", "[]"), "'for' must be a list of words"),
    "for no ruleset": (FACT.replace("orchard.tree", "Orchard/Tree"), "'Orchard/Tree' is no ruleset"),
    "an unknown key": (FACT.replace("unit:", "units:"), "'units' has no meaning here; the nearest right"),
    "a name in capitals": (FACT.replace("tree.age", "Tree.Age"), "a fact is named in small letters with dots"),
    "the name of a conclusion": (FACT.replace("tree.age", "concluded.age"), "and not concluded.… or limit.…"),
    "values that come from nowhere": (
        NAMED.replace("[a, b]", "{from: crop}"), "values cannot come from 'crop'; the nearest right word is 'crops'",
    ),
    "a value twice": (NAMED.replace("[a, b]", "[a, a]"), "'values' names a word twice"),
    "a very long value": (NAMED.replace("[a, b]", f"[{'a' * 201}]"), "a value is longer than 200 characters"),
    "a choice with a unit": (NAMED.replace("values:", "unit: ft, values:"), "only a number has a unit and a range"),
    "a number with values": (FACT.replace("unit:", "values: [a], unit:"), "only a choice or a list has values"),
    "always neither true nor false": (FACT.replace("unit:", "always: often, unit:"), "'always' must be true or false"),
}  # fmt: skip


@pytest.mark.parametrize("wrong", WRONG_FACTS)
def test_a_malformed_fact_is_told_with_its_place(tmp_path: Path, wrong: str) -> None:
    text, sentence = WRONG_FACTS[wrong]
    told = faults(tmp_path, vocabulary=with_facts(text))
    assert told.startswith("rules/vocabulary.yaml:8: ")
    assert sentence in told


WRONG_CONCLUSIONS = {
    "an order that leaves a value out": ("[tall, small]", "[tall]", "must list each of the values once"),
    "an order of numbers": ("more_cautious: highest", "more_cautious: most", "is highest or lowest, not 'most'"),
    "a name": ("choice, values: [small, tall], more_cautious: [tall, small]", "name", "a conclusion cannot be a name"),
    "the name of a fact": ("  size:", "  crop:", "a fact has the same name"),
    "a name with dots": ("  size:", "  tree.size:", "a conclusion is named in small letters without dots"),
}


@pytest.mark.parametrize("wrong", WRONG_CONCLUSIONS)
def test_a_malformed_conclusion_is_told_with_its_place(tmp_path: Path, wrong: str) -> None:
    old, new, sentence = WRONG_CONCLUSIONS[wrong]
    told = faults(tmp_path, vocabulary=FILES["vocabulary.yaml"].replace(old, new))
    assert told.startswith("rules/vocabulary.yaml:")
    assert sentence in told


WRONG_LIMITS = {
    "a unit that is none": ("unit: ft, value: 12", "unit: feet, value: 12", "there is no unit 'feet'"),
    "a value outside its range": ("value: 12", "value: 15", "the value 15 lies outside its own range [10, 14]"),
    "no source": ("range: [10, 14], basis: common practice", "range: [10, 14]", "on whose authority"),
    "no day of confirmation": ("[10, 14], basis: common practice, confirmed: 2026-01-01",
                               "[10, 14], basis: common practice", "'confirmed' must be a date"),
    "an unknown key": ("{meaning: m, unit: ft, value: 12", "{meaning: m, note: more, unit: ft, value: 12", "'note'"),
}  # fmt: skip


@pytest.mark.parametrize("wrong", WRONG_LIMITS)
def test_a_malformed_limit_is_told_with_its_place(tmp_path: Path, wrong: str) -> None:
    old, new, sentence = WRONG_LIMITS[wrong]
    assert FILES["limits.yaml"].count(old) == 1
    told = faults(tmp_path, limits=FILES["limits.yaml"].replace(old, new))
    assert told.startswith("rules/limits.yaml:2: tree.tall_ft: ")
    assert sentence in told


def test_a_malformed_caution_is_told_with_its_place(tmp_path: Path) -> None:
    told = faults(tmp_path, cautions=FILES["cautions.yaml"].replace("text_es: Cuidado., ", ""))
    assert told == "rules/cautions.yaml:1: ladder: 'text_es' must be a text; write text_es: and a few words"


def test_a_file_with_another_head_is_told_what_to_begin_with(tmp_path: Path) -> None:
    assert "'limit' has no meaning here; the nearest right word is 'limits'" in faults(tmp_path, limits="limit: {}\n")
    assert "must hold lines of the form name: value" in faults(tmp_path, limits="- 1\n")
