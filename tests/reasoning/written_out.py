"""A small rulebook written out, for the tests of reading: one rule, and all that it refers to."""

from __future__ import annotations

from pathlib import Path

import pytest

from service.reasoning.faults import RulebookFaults
from service.reasoning.rulebook import Rulebook
from tests.reasoning.made_up import written

VOCABULARY = """\
facts:
  crop: {meaning: the crop, type: choice, values: [apple, peach], always: true, for: [orchard.tree], computed_by: us}
  tree.height_ft: {meaning: the height, type: number, unit: ft, range: [0, 60], for: [orchard.tree], computed_by: us}
  tree.dry: {meaning: whether it is dry, type: flag, for: [orchard.tree], computed_by: us}
  tree.pests: {meaning: pests, type: list, values: [moth, scab], for: [orchard.tree], computed_by: us}
  tree.state: {meaning: state, type: choice, values: [good, unknown], for: [orchard.tree], computed_by: us}
  hedge.width_ft: {meaning: width, type: number, unit: ft, range: [0, 60], for: [orchard.hedge], computed_by: us}
conclusions:
  size: {meaning: the size, type: choice, values: [small, tall], more_cautious: [tall, small], for: [orchard.tree]}
  reach_ft: {meaning: the reach, type: number, unit: ft, range: [0, 60], more_cautious: highest, for: [orchard.tree]}
"""
LIMITS = """\
limits:
  tree.tall_ft: {meaning: m, unit: ft, value: 12, range: [10, 14], basis: common practice, confirmed: 2026-01-01}
  tree.points: {meaning: m, unit: points, value: 8, range: [5, 10], basis: common practice, confirmed: 2026-01-01}
  tree.huge_ft: {meaning: m, unit: ft, value: 99, range: [90, 100], basis: common practice, confirmed: 2026-01-01}
"""
CAUTIONS = "cautions: {ladder: {text: Mind it., text_es: Cuidado., when_shown: always, basis: common practice}}\n"
RULE = """\
rules:
  - id: keep-it-low
    title: Keep the tree low
    when:
      crop: {is: peach}
      tree.height_ft: {above: 12}
    then:
      conclude: {size: tall}
      prefer: 5
      say: "At {tree.height_ft} your {crop} is {size}."
    why: A low tree is picked from the ground.
    source: [{ref: a-guide, where: page 3}]
    cautions: [ladder]
    priority: 50
    reviewed: {last: 2026-11-25, next: 2028-11-25}
    examples:
      - {name: tall, given: {crop: peach, tree.height_ft: 20}, expect: fires}
      - {name: just there, given: {crop: peach, tree.height_ft: 12}, expect: silent}
"""
FILES = {"vocabulary.yaml": VOCABULARY, "limits.yaml": LIMITS, "cautions.yaml": CAUTIONS}



def load(folder: Path, text: str) -> Rulebook:
    return written(folder / "rules", {**FILES, "orchard/tree/size.yaml": text})


def faults(folder: Path, text: str) -> list[str]:
    with pytest.raises(RulebookFaults) as caught:
        load(folder, text)
    return [str(fault) for fault in caught.value.faults]


def changed(old: str, new: str) -> str:
    assert RULE.count(old) == 1
    return RULE.replace(old, new)


