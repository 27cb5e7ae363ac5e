"""What rules/README.md and rules/retired/README.md show is true: the examples in them load."""

from __future__ import annotations

import re
from pathlib import Path

from service.reasoning.check import check, main
from service.reasoning.meaning import OPS_OF
from service.reasoning.rule import OUTCOMES
from service.reasoning.rule_file import HEADS
from service.reasoning.shelf import read_retired

FOLDER = Path(__file__).resolve().parents[2] / "rules"
GUIDE = (FOLDER / "README.md").read_text(encoding="utf-8")


def example_in(text: str) -> str:
    (block,) = re.findall(r"```yaml\n(.*?)```", text, re.DOTALL)
    return str(block)


def test_the_rule_in_the_guide_loads_and_its_examples_hold(tmp_path: Path) -> None:
    place = tmp_path / "store" / "suggestion" / "cultivar" / "figs.yaml"
    place.parent.mkdir(parents=True)
    place.write_text(example_in(GUIDE), encoding="utf-8")
    assert check(FOLDER, overlay=tmp_path / "store") == []


def test_the_check_tells_an_example_that_does_not_hold(tmp_path: Path) -> None:
    place = tmp_path / "store" / "suggestion" / "cultivar" / "figs.yaml"
    place.parent.mkdir(parents=True)
    place.write_text(example_in(GUIDE).replace("frost_free_days: 160", "frost_free_days: 190"), encoding="utf-8")
    (fault,) = check(FOLDER, overlay=tmp_path / "store")
    assert fault == (
        "store/suggestion/cultivar/figs.yaml:14: tell-that-a-late-fig-needs-a-long-warm-autumn: in the example "
        "'a late fig and a short season' the rule is silent and should fire"
    )
    assert main([str(FOLDER), str(tmp_path / "store")]) == 1


def test_the_guide_names_every_head_outcome_and_test() -> None:
    words = {*HEADS, *OUTCOMES, *(op for ops in OPS_OF.values() for op in ops)}
    assert [word for word in sorted(words) if f"`{word}" not in GUIDE] == []


def test_the_retired_rule_in_the_guide_loads(tmp_path: Path) -> None:
    guide = (FOLDER / "retired" / "README.md").read_text(encoding="utf-8")
    (tmp_path / "2027.yaml").write_text(example_in(guide), encoding="utf-8")
    retired = read_retired(tmp_path, root=tmp_path)
    assert retired["prune-peaches-in-autumn"].replaced_by == "prune-peaches-in-dry-weather"
