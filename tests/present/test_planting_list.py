"""A checked planting list as plain data: numbers, names and days as a person takes them."""

from __future__ import annotations

from typing import Any

import pytest

from service.present.planting_list import planting_list_advice, subject
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import ListCounter

LIST = "2 Honeycrisp on M.9\nBartlett pear on Quince A\nGala apple\nGalla apple\nThank you very much!"


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


@pytest.fixture(scope="module")
def told(counter: ListCounter) -> dict[str, Any]:
    advice = planting_list_advice(counter.check(LIST, existing_trees=(), state="WA"), rulebook=counter.rulebook)
    answer: dict[str, Any] = advice["answer"]
    return answer


def test_the_sketch_is_told_in_feet_and_in_metres(told: dict[str, Any]) -> None:
    sketch = told["sketch"]
    assert (sketch["width_ft"], sketch["width_m"]) == (60, 18.29)
    assert len(sketch["trees"]) == told["totals"]["trees"]
    for tree in sketch["trees"]:
        assert tree["x_m"] == pytest.approx(tree["x_ft"] * 0.3048, abs=0.01)


def test_the_harvest_is_told_by_days_of_the_calendar(told: dict[str, Any]) -> None:
    gala = next(time for time in told["harvest"]["times"] if time["name"] == "Gala")
    assert gala["from"][:2] == "08"
    assert {month["month"] for month in told["harvest"]["months"]} >= {8, 9}


def test_few_of_the_reasons_speak_for_a_tree_and_none_is_left_out_that_speaks_against_it(
    told: dict[str, Any], counter: ListCounter
) -> None:
    tree = counter.line("Bartlett pear on Quince A").names[0].tree
    assert tree is not None
    against = {one.rule.id for one in tree.conclusions if one.outcome in ("set_aside", "caution", "mark_down")}
    reasons = told["lines"][1]["judged"][0]["reasons"]
    assert against <= {reason["rule"] for reason in reasons}
    assert sum(reason["outcome"] == "prefer" for reason in reasons) <= 2
    assert reasons[0]["outcome"] == "set_aside"


def test_every_line_of_the_list_is_told_what_becomes_of_it_in_a_repair(told: dict[str, Any]) -> None:
    repair = told["repair"]
    assert repair["found"]
    changes = {line["line"]: line for line in repair["lines"]}
    assert changes[2]["change"] == "rootstock"
    assert changes[2]["rootstock"]["name"] != "Quince A"


def test_conclusions_name_the_line_that_they_are_about(counter: ListCounter) -> None:
    advice = planting_list_advice(counter.check(LIST), rulebook=counter.rulebook)
    about = {one["about"] for one in advice["conclusions"]}
    assert {subject(line) for line in (1, 2, 3, 4)} <= about
    assert about - {None} == {subject(line["line"]) for line in advice["answer"]["lines"]}


def test_rows_that_are_no_lines_are_told_with_the_reason(counter: ListCounter) -> None:
    read = planting_list_advice(counter.check("APPLES:\nGala\n"), rulebook=counter.rulebook)["answer"]["read"]
    assert [(row["written"], row["why"]) for row in read["skipped"]] == [("APPLES:", "crop_heading")]
