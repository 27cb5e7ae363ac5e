"""Uses of a product from file, on the invented shelf: the verdict, the checks that answer, and the earliest harvest."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from service.commands.demo import demo_shelf
from service.domain.label import LabelRecord
from service.knowledge import strict_yaml
from service.questions.treatment import JudgedProduct, TreatmentAnswer
from service.reasoning.rulebook import Rulebook
from service.settings import CHECKOUT
from tests.questions.label_counter import LabelCounter

FOLDER = Path(__file__).parents[1] / "cases"
CASES: Any = strict_yaml.read(FOLDER / "label.yaml")["cases"]
CHECKS: Any = strict_yaml.read(FOLDER / "label_checks.yaml")["checks"]
OUTCOMES = {"forbidden": ("forbid",), "caution": ("caution",), "allowed": ("say", "advise")}


@pytest.fixture(scope="module")
def shelf(rulebook: Rulebook) -> list[LabelRecord]:
    """The invented shelf."""
    return demo_shelf(CHECKOUT / "rules", rulebook.catalogue)


@pytest.fixture(scope="module")
def answers(rulebook: Rulebook, shelf: list[LabelRecord]) -> Mapping[str, TreatmentAnswer]:
    """The answer to each case, asked once."""
    counter = LabelCounter(rulebook)
    return {case["id"]: counter.ask_records(case["asked"], shelf) for case in CASES}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_the_verdict_is_the_expected_one(answers: Mapping[str, TreatmentAnswer], case: Any) -> None:
    assert _product(answers[case["id"]], case["product"]).verdict == case["verdict"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_each_check_answers_with_its_outcome(answers: Mapping[str, TreatmentAnswer], case: Any) -> None:
    fired = _fired(answers[case["id"]], case["product"])
    for check, verdict in case["fires"].items():
        assert any(fired.get(rule) in OUTCOMES[verdict] for rule in CHECKS[check]), f"{check} does not answer"
    for check in case["silent"]:
        assert not fired.keys() & set(CHECKS[check]), f"{check} answers"


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_nothing_forbids_that_the_case_does_not_name(answers: Mapping[str, TreatmentAnswer], case: Any) -> None:
    product = _product(answers[case["id"]], case["product"])
    named = {rule for check in case["fires"] for rule in CHECKS[check]}
    assert {rule.id for rule in product.judgement.rules if rule.outcome == "forbid"} <= named


@pytest.mark.parametrize("case", [case for case in CASES if "earliest_harvest" in case], ids=lambda case: case["id"])
def test_the_earliest_harvest_is_told(answers: Mapping[str, TreatmentAnswer], case: Any) -> None:
    told = _product(answers[case["id"]], case["product"]).dates.earliest_harvest
    assert told is not None
    assert told.isoformat() == str(case["earliest_harvest"])


def test_every_check_names_rules_that_stand(rulebook: Rulebook) -> None:
    assert [rule for rules in CHECKS.values() for rule in rules if rule not in rulebook.rules] == []


def _product(answer: TreatmentAnswer, name: str) -> JudgedProduct:
    return next(one for one in answer.products if one.offered.id == name)


def _fired(answer: TreatmentAnswer, name: str) -> dict[str, str]:
    """The rules that fired on the case, the product and the answer, with their outcomes."""
    judgements = answer.need, _product(answer, name).judgement, answer.judgement
    return {rule.id: rule.outcome for judgement in judgements for rule in judgement.rules}
