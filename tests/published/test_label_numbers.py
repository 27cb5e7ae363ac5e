"""What the Code of Federal Regulations says of numbers and words on a label, against what records are held to.

The sections were read in stored copies of the Code; where a limit is ours, the test says so.
"""

from __future__ import annotations

import re

import pytest

from service.domain.label_model import LabelModel
from service.reasoning.rulebook import Rulebook


@pytest.fixture(scope="module")
def model(rulebook: Rulebook) -> LabelModel:
    """What the rulebook holds records to."""
    return rulebook.catalogue.label.model


@pytest.mark.parametrize(
    ("category", "words"),
    [("I", {"DANGER"}), ("II", {"WARNING"}), ("III", {"CAUTION"}), ("IV", {"CAUTION", "none"})],
)
def test_40_cfr_156_64_gives_each_category_its_signal_word(category: str, words: set[str], model: LabelModel) -> None:
    assert set(model.signal_words[category]) == words  # type: ignore[index]


def test_40_cfr_156_10_e_a_number_is_company_and_product_and_152_132_adds_the_distributor(model: LabelModel) -> None:
    forms = model.numbers.registration
    assert re.fullmatch(forms["section3"], "12345-678")
    assert re.fullmatch(forms["distributor"], "12345-678-9012")
    assert not re.fullmatch(forms["section3"], "12345-678-9012")


def test_a_special_local_need_number_begins_with_its_state(model: LabelModel) -> None:
    assert re.fullmatch(model.numbers.registration["sln_24c"], "OR-210004")


def test_a_file_symbol_is_written_with_letters_of_the_word_regulation(model: LabelModel) -> None:
    assert re.fullmatch(model.numbers.not_registered, "12345-EUI")
    assert not re.fullmatch(model.numbers.not_registered, "12345-678")


def test_an_invented_number_fits_no_registration(model: LabelModel) -> None:
    invented = "9999101-1"
    assert re.fullmatch(model.numbers.invented, invented)
    assert not any(re.fullmatch(form, invented) for form in model.numbers.registration.values())


def test_40_cfr_152_25_f_has_six_conditions_that_a_label_shows(model: LabelModel) -> None:
    assert len([one for one in model.minimum_risk.values() if one.checks]) == 6


@pytest.mark.parametrize(
    ("field", "section"),
    [("restricted_use", "156.10(j)"), ("signal_word", "156.64"), ("first_aid_text", "156.68"),
     ("active_ingredients", "156.10(g)"), ("sites", "156.10(i)(2)"), ("storage_disposal_text", "156.10(i)(2)(ix)"),
     ("rei_hours", "156.208"), ("exempt_25b", "152.25(f)"), ("child_warning", "156.66")],
)  # fmt: skip
def test_a_field_names_the_section_that_asks_for_it(field: str, section: str, model: LabelModel) -> None:
    assert section in (model.fields[field].regulation or "")
