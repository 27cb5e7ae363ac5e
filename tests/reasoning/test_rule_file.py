"""One file of rules, read strictly."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.reasoning.faults import RulebookFaults
from service.reasoning.rule import FromFact, Test
from service.reasoning.rule_file import HEADS, MISSING
from tests.reasoning.made_up import written
from tests.reasoning.written_out import FILES, RULE, VOCABULARY, changed, faults, load


def test_a_rule_is_read_whole(tmp_path: Path) -> None:
    rule = load(tmp_path, RULE).rules["keep-it-low"]
    assert rule.when == (Test("crop", "is", "peach"), Test("tree.height_ft", "above", 12))
    assert (rule.outcome, rule.points, rule.conclude) == ("prefer", 5, {"size": "tall"})
    assert (rule.priority, rule.cautions, rule.sources[0].where) == (50, ("ladder",), "page 3")
    assert (rule.file, rule.line, rule.ruleset) == ("rules/orchard/tree/size.yaml", 2, "orchard.tree")
    assert [(example.name, example.fires) for example in rule.examples] == [("tall", True), ("just there", False)]


def test_limits_are_resolved_and_kept_by_name(tmp_path: Path) -> None:
    text = changed("above: 12", "above: {limit: tree.tall_ft}").replace("prefer: 5", "prefer: {limit: tree.points}")
    rule = load(tmp_path, text.replace("is {size}", "is over {limit.tree.tall_ft}")).rules["keep-it-low"]
    assert rule.when[1] == Test("tree.height_ft", "above", 12, ("tree.tall_ft",))
    assert rule.when[1].limit_name == "tree.tall_ft"
    assert rule.points == 8
    assert rule.limits == {"tree.tall_ft": 12, "tree.points": 8}


def test_a_conclusion_takes_the_value_of_a_fact(tmp_path: Path) -> None:
    text = changed("conclude: {size: tall}", "conclude: {size: tall, reach_ft: {fact: tree.height_ft}}")
    assert load(tmp_path, text).rules["keep-it-low"].conclude["reach_ft"] == FromFact("tree.height_ft")


def test_in_an_example_unknown_is_unknown_unless_it_is_a_value(tmp_path: Path) -> None:
    text = changed(
        "{name: tall, given: {",
        "{name: none, given: {tree.dry: unknown, tree.state: unknown}, expect: silent}\n      - {name: tall, given: {",
    )
    assert load(tmp_path, text).rules["keep-it-low"].examples[0].given == {"tree.dry": None, "tree.state": "unknown"}


@pytest.mark.parametrize("head", [head for head in HEADS if head not in ("basis", "cautions", "priority", "source")])
def test_each_missing_head_has_a_sentence_of_its_own(tmp_path: Path, head: str) -> None:
    lines = RULE.splitlines(keepends=True)
    start = next(n for n, line in enumerate(lines) if line.strip().removeprefix("- ").startswith(f"{head}:"))
    end = start + 1
    while end < len(lines) and lines[end].startswith("      "):
        end += 1
    text = "".join(lines[:start] + lines[end:])
    text = text if head != "id" else text.replace("rules:\n    title", "rules:\n  - title")
    (fault,) = faults(tmp_path, text)
    assert fault.endswith(MISSING[head])


def test_the_sentences_for_missing_heads_differ() -> None:
    assert len(set(MISSING.values())) == len(MISSING)


def test_a_rule_without_authority_is_told_what_to_write(tmp_path: Path) -> None:
    (fault,) = faults(tmp_path, changed("    source: [{ref: a-guide, where: page 3}]\n", ""))
    assert "write source: [{ref: a source id" in fault
    assert "basis: common practice" in fault


def test_all_faults_of_a_folder_are_told_at_once(tmp_path: Path) -> None:
    text = (
        changed("is: peach", "is: peech")
        .replace("ref: a-guide", "ref: a-gide")
        .replace("expect: silent", "expect: sometimes")
    )
    assert len(faults(tmp_path, text)) == 3


def test_forty_one_tests_are_more_than_a_rule_may_have(tmp_path: Path) -> None:
    facts = [f"  f{n}: {{meaning: m, type: flag, for: [orchard.tree], computed_by: us}}\n" for n in range(41)]
    tests = "".join(f"      f{n}: {{is: true}}\n" for n in range(41))
    files = {**FILES, "vocabulary.yaml": VOCABULARY.replace("conclusions:", "".join(facts) + "conclusions:")}
    text = changed("      crop: {is: peach}\n      tree.height_ft: {above: 12}\n", tests)
    with pytest.raises(RulebookFaults, match=r"keep-it-low: 41 tests are more than a rule may have \(40\)"):
        written(tmp_path / "rules", {**files, "orchard/tree/size.yaml": text})
