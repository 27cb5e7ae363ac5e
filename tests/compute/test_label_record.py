"""What is missing or contradictory in a label record."""

from __future__ import annotations

from typing import Any

import pytest

from service.compute.label_record import (
    double_checked,
    findings,
    missing_fields,
    number_is_valid,
    unmet_conditions,
)
from service.domain.label import LabelRecord
from service.domain.label_model import LabelModel
from service.domain.plain_label import read_record
from service.reasoning.rulebook import Rulebook
from tests.made_up_labels import WHOLE, label

EXEMPT: dict[str, Any] = {"reg_type": "exempt_25b", "epa_reg_no": None, "epa_est_no": None, "misuse_statement": None}
MET = dict.fromkeys(
    ("actives_all_on_list", "inerts_all_on_list", "all_ingredients_printed", "no_public_health_claim",
     "producer_contact_printed", "no_false_claims"), True,
)  # fmt: skip


@pytest.fixture(scope="module")
def model(rulebook: Rulebook) -> LabelModel:
    """What the rulebook holds records to."""
    return rulebook.catalogue.label.model


def record(**changed: Any) -> LabelRecord:
    return read_record(label(**changed)).record


def kinds(found: LabelRecord, model: LabelModel) -> set[tuple[str, str]]:
    return {(one.kind, one.field) for one in findings(found, model)}


def test_nothing_is_found_in_a_whole_record(model: LabelModel) -> None:
    assert findings(record(), model) == ()


ALWAYS = sorted(set(WHOLE) - {"demo", "toxicity_category", "compatibility"})


@pytest.mark.parametrize("field", ALWAYS)
def test_a_field_that_must_always_stand_is_missed(field: str, model: LabelModel) -> None:
    missed = {path.split(".")[0] for path in missing_fields(record(**{field: None}), model)}
    number_is_told_as_malformed = {"epa_reg_no"} if field == "epa_reg_no" else set()
    assert missed | number_is_told_as_malformed >= {field}


@pytest.mark.parametrize("field", ["toxicity_category", "compatibility", "shelf_expiry", "rei_hours"])
def test_what_labels_need_not_print_is_not_missed(field: str, model: LabelModel) -> None:
    assert missing_fields(record(**{field: None}), model) == ()


def test_a_printed_crop_without_pests_or_method_is_missed_at_its_place(model: LabelModel) -> None:
    sites = [*WHOLE["sites"], {"crop_as_printed": "peach", "crops": ["peach"]}]
    assert missing_fields(record(sites=sites), model) == ("sites.2.pests", "sites.2.method")


def test_a_farm_label_needs_no_words_for_homes_on_going_back(model: LabelModel) -> None:
    farm = record(user_site_class="commercial_only", reentry_text=None)
    assert missing_fields(farm, model) == ()


def test_a_distributor_product_names_what_it_rests_on(model: LabelModel) -> None:
    distributed = {"reg_type": "distributor", "epa_reg_no": "9999124-24-9999301"}
    assert missing_fields(record(**distributed), model) == ("distributor_of",)
    assert findings(record(**distributed, distributor_of="9999124-24"), model) == ()
    other = record(**distributed, distributor_of="9999124-25")
    assert kinds(other, model) == {("disagrees", "distributor_of")}


def test_one_pair_of_eyes_is_not_enough(model: LabelModel) -> None:
    alone = {"entered_by": "ab", "checked_by": "ab"}
    assert double_checked(record())
    assert not double_checked(record(label_captured_by=alone))
    assert kinds(record(label_captured_by=alone), model) == {("not_checked", "label_captured_by.checked_by")}


@pytest.mark.parametrize(
    ("number", "kind", "demo", "valid"),
    [
        ("9999101-1", "section3", True, True),
        ("9999101-1", "section3", False, False),  # an invented number on a record that is not marked so
        ("12345-67", "section3", False, True),
        ("12345-67", "section3", True, False),  # an invented record under a number that can be issued
        ("12345-67-8910", "distributor", False, True),
        ("12345-67-8910", "section3", False, False),
        ("12345-67", "distributor", False, False),
        ("WA-120003", "sln_24c", False, True),
        ("wa-120003", "sln_24c", False, False),
        ("12345-RGO", "section3", False, False),
        ("12345", "section3", False, False),
        ("0123-4", "section3", False, False),
        ("1234567-1", "section3", False, False),
        ("12345-67 ", "section3", False, True),
        ("EPA 12345-67", "section3", False, False),
    ],
)
def test_a_number_has_the_form_of_its_registration(
    number: str, kind: str, *, demo: bool, valid: bool, model: LabelModel
) -> None:
    assert number_is_valid(record(epa_reg_no=number, reg_type=kind, demo=demo), model) is valid


def test_a_product_that_is_not_registered_yet_is_known_by_its_letters(model: LabelModel) -> None:
    said = [one.says for one in findings(record(demo=False, epa_reg_no="12345-RGO"), model)]
    assert said == ["this is the number of a product that is not registered yet"]


def test_a_minimum_risk_product_needs_no_number_and_may_show_none(model: LabelModel) -> None:
    assert findings(record(**EXEMPT, exempt_25b=MET), model) == ()
    shown = record(**{**EXEMPT, "epa_reg_no": "12345-67"}, exempt_25b=MET)
    assert kinds(shown, model) == {("malformed", "epa_reg_no")}
    assert not number_is_valid(shown, model)


@pytest.mark.parametrize("condition", sorted(MET))
@pytest.mark.parametrize("state", [False, None])
def test_a_minimum_risk_product_fails_by_any_condition_that_is_not_met_or_not_known(
    condition: str, state: bool | None, model: LabelModel
) -> None:
    found = record(**EXEMPT, exempt_25b={**MET, condition: state})
    assert unmet_conditions(found, model) == (f"exempt_25b.{condition}",)


def test_nobody_looked_at_a_minimum_risk_product_at_all(model: LabelModel) -> None:
    assert len(unmet_conditions(record(**EXEMPT), model)) == len(MET)


def test_registered_products_are_not_held_to_the_exemption(model: LabelModel) -> None:
    assert unmet_conditions(record(), model) == ()


def test_signal_word_and_category_that_disagree_are_told(model: LabelModel) -> None:
    assert kinds(record(signal_word="CAUTION"), model) == {("disagrees", "signal_word")}
    assert findings(record(signal_word="none", toxicity_category="IV"), model) == ()


def test_shares_above_the_whole_are_told(model: LabelModel) -> None:
    two = [{"iso_name": "captan", "percent": 60.0}, {"iso_name": "malathion", "percent": 40.6}]
    assert kinds(record(active_ingredients=two), model) == {("disagrees", "active_ingredients")}
    two[1]["percent"] = 40.5
    assert findings(record(active_ingredients=two), model) == ()


def test_a_printed_name_that_nobody_settled_asks_what_it_takes_in(model: LabelModel) -> None:
    sites = [{"crop_as_printed": "Cherry", "pests": ["brown_rot"], "method": ["foliar"]}]
    found = findings(record(sites=sites), model)
    assert [(one.kind, one.field) for one in found] == [("unresolved", "sites.0.crops")]
    assert found[0].says.startswith("Sweet, tart or both?")


def test_a_name_that_never_takes_a_crop_in_is_told(model: LabelModel) -> None:
    sites = [{"crop_as_printed": "peach", "crops": ["peach", "nectarine"], "pests": ["brown_rot"],
              "method": ["foliar"]}]  # fmt: skip
    assert kinds(record(sites=sites), model) == {("disagrees", "sites.0.crops")}
