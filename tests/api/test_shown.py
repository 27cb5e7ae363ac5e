"""How an example of the document is declared, and what is said of a declaration that cannot be kept."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from flask import Flask

from service.api.document import bare_document_of, document_of
from service.api.shown import Shown, ShownExample, read_examples, write_examples
from service.api.shown_answers import NotShown, ask_all
from service.api.shown_request import NoSuchField, RequestForm
from service.api.thinning_plans import blueprint as thinning

VIEW = "plan_the_thinning"
EXAMPLE = ShownExample("a-rule", "Made from a rule.", "a-rule", {"crop": "fig"}, {"answer": {}})


@pytest.fixture
def document(app: Flask) -> dict[str, Any]:
    """The document without examples of whole requests."""
    return bare_document_of(app.extensions["fruitwright_api"])


def form(document: dict[str, Any], path: str, method: str = "post") -> RequestForm:
    return RequestForm(document, document["paths"][path][method])


def test_a_fact_finds_the_field_of_its_own_name(document: dict[str, Any]) -> None:
    variety, thinned = form(document, "/v1/variety-suggestions"), form(document, "/v1/thinning-plans")
    assert variety.field_of("site.soil_ph") == "site.soil_ph"
    assert thinned.field_of("tree.age_years") == "age_years"
    assert thinned.field_of("load.surplus") is None


def test_one_crop_becomes_a_list_of_wished_crops(document: dict[str, Any]) -> None:
    variety = form(document, "/v1/variety-suggestions")
    variety.put("wishes.crops", "apple")
    assert variety.request == {"wishes": {"crops": ["apple"]}}


def test_a_path_leads_into_the_first_entry_of_a_list(document: dict[str, Any]) -> None:
    season = form(document, "/v1/season-plans")
    season.put("trees.crop", "fig")
    season.put("trees.seen.full_bloom", "2026-03-12")
    assert season.request == {"trees": [{"crop": "fig", "seen": {"full_bloom": "2026-03-12"}}]}


def test_what_must_not_be_missing_takes_its_documented_example(document: dict[str, Any]) -> None:
    thinned, season = form(document, "/v1/thinning-plans"), form(document, "/v1/season-plans")
    thinned.complete()
    season.put("trees.bears", True)
    season.complete()
    assert thinned.request == {"crop": "peach"}
    assert season.request == {"trees": [{"bears": True, "crop": "peach"}]}


def test_the_needed_parameters_of_a_query_are_completed_too(document: dict[str, Any]) -> None:
    pair = form(document, "/v1/pollination", "get")
    pair.put("cultivar", "Van")
    pair.complete()
    assert pair.request == {"cultivar": "Van", "partner": "Lapins"}


def test_a_field_that_is_not_there_is_named_with_those_that_are(document: dict[str, Any]) -> None:
    with pytest.raises(NoSuchField, match=r"no field 'site.ph'; known beside 'ph': .*soil_ph"):
        form(document, "/v1/variety-suggestions").put("site.ph", 8)


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        (Shown("space-early-peaches", wishes={"crop": "apple"}), "does not come to the rule space-early-peaches"),
        (Shown("a-rule-of-long-ago"), "the rule a-rule-of-long-ago, which is not there"),
        (Shown("space-early-peaches", wishes={"age_years": 0}), "refuses its example .*'age_years': 0"),
    ],
    ids=["rule does not fire", "rule is not there", "request is refused"],
)
def test_a_declaration_that_cannot_be_kept_is_said(
    app: Flask, monkeypatch: pytest.MonkeyPatch, shown: Shown, said: str
) -> None:
    monkeypatch.setitem(thinning.shown, VIEW, shown)
    with pytest.raises(NotShown, match=said):
        ask_all(app)


def test_examples_are_kept_by_operation_and_old_ones_go(tmp_path: Path) -> None:
    write_examples({"get_old": EXAMPLE}, tmp_path)
    write_examples({"get_new": EXAMPLE}, tmp_path)
    assert read_examples(tmp_path) == {"get_new": EXAMPLE}


def test_a_question_whose_example_is_not_kept_yet_is_documented_without(app: Flask) -> None:
    api = app.extensions["fruitwright_api"]
    assert document_of(api, {}) == bare_document_of(api)
