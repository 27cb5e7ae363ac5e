"""The document's examples of whole requests are made of the rules' own cases, and their answers are the service's."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, tzinfo
from functools import cache
from typing import Any

import pytest
from flask import Flask
from openapi_schema_validator import OAS31Validator

from service.api import season_plans
from service.api.document import bare_document_of, document_of
from service.api.shown import REFUSED, ShownExample, operations_of, read_examples
from service.api.shown_answers import WRONG, Declared, ask, ask_all, declared, replaced
from service.api.shown_request import RequestForm, firing_case, known_facts
from service.api.thinning_plans import blueprint as thinning
from service.reasoning.rulebook import Rulebook

MEND = "the examples of the document are out of step; mend them with: fruitwright openapi write"
KEPT = read_examples()
WITHOUT_RULES = {"post_v1_climate_summaries"}  # no rule judges a climate


@pytest.fixture(scope="module")
def document(app: Flask) -> dict[str, Any]:
    """The document with its examples."""
    return document_of(app.extensions["fruitwright_api"])


@pytest.fixture(scope="module")
def shown(app: Flask) -> dict[str, Declared]:
    """What the resources declare, by operation."""
    return {one.id: one for one in declared(app, bare_document_of(app.extensions["fruitwright_api"]))}


def schema_told(document: Mapping[str, Any], operation: Mapping[str, Any]) -> dict[str, Any]:
    said = operation["responses"].get("200", {}).get("content", {}).get("application/json", {}).get("schema", {})
    found: dict[str, Any] = document["components"]["schemas"].get(said.get("$ref", "").rsplit("/", 1)[-1], {})
    return found


def questions(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The operations that ask; the result of a kept list, which needs a kept list in its address, asks nothing."""
    asking = [one for one in operations_of(document) if not one["operationId"].endswith("_result")]
    return [one for one in asking if "conclusions" in schema_told(document, one).get("properties", {})]


def faults(document: Mapping[str, Any], schema: Mapping[str, Any], value: Any) -> list[str]:
    validator = OAS31Validator({**schema, "components": document["components"]})
    return [f"{fault.json_path}: {fault.message[:200]}" for fault in validator.iter_errors(value)]


@cache
def asked_now(app: Flask) -> dict[str, ShownExample]:
    return ask_all(app)


def test_every_question_shows_a_request_and_its_answer(document: dict[str, Any]) -> None:
    asked = questions(document)
    assert len(asked) >= 7
    for operation in asked:
        name = KEPT[operation["operationId"]].name
        if "requestBody" in operation:
            assert name in operation["requestBody"]["content"]["application/json"]["examples"]
        else:
            assert any(name in one.get("examples", {}) for one in operation["parameters"])
        assert name in operation["responses"]["200"]["content"]["application/json"]["examples"]


def test_every_question_that_rules_answer_is_shown_by_a_rule(document: dict[str, Any]) -> None:
    without = {one["operationId"] for one in questions(document) if KEPT[one["operationId"]].rule is None}
    assert without == WITHOUT_RULES


def test_every_reference_shows_an_entry(document: dict[str, Any]) -> None:
    told = [one for one in operations_of(document) if "ETag" in one["responses"].get("200", {}).get("headers", {})]
    in_json = {one["operationId"] for one in told if schema_told(document, one)}
    assert {"get_v1_crops_by_crop", "get_v1_rules_by_rule", "get_v1_signs_by_sign"} <= in_json
    assert in_json - {"get_v1_names"} <= set(KEPT)  # the whole list of names is too long to be shown


def test_the_examples_kept_are_those_that_are_declared(shown: dict[str, Declared]) -> None:
    assert set(KEPT) == {*shown, REFUSED}, MEND


@pytest.mark.parametrize("operation", sorted(KEPT.keys() - {REFUSED}))
def test_a_shown_request_fits_the_document(
    document: dict[str, Any], shown: dict[str, Declared], operation: str
) -> None:
    one, request = shown[operation], KEPT[operation].request
    if "requestBody" in one.operation:
        schema = one.operation["requestBody"]["content"]["application/json"]["schema"]
        assert faults(document, schema, request) == []
        return
    parameters = {said["name"]: said for said in (*one.shared, *one.operation.get("parameters", ()))}
    assert {name: faults(document, parameters[name]["schema"], value) for name, value in request.items()} == {
        name: [] for name in request
    }
    assert {name for name, said in parameters.items() if said.get("required")} <= set(request)


@pytest.mark.parametrize("operation", sorted(KEPT.keys() - {REFUSED}))
def test_the_service_gives_the_shown_answer(
    app: Flask, document: dict[str, Any], shown: dict[str, Declared], operation: str
) -> None:
    one, kept = shown[operation], KEPT[operation]
    response = ask(app, one.place, kept.request)
    assert response.status_code == 200
    assert isinstance(response.json, dict)
    assert replaced(document, one.operation, response.json) == kept.answer, MEND
    assert faults(document, schema_told(document, one.operation), kept.answer) == []


@pytest.mark.parametrize("operation", sorted(name for name, kept in KEPT.items() if kept.rule))
def test_the_rule_of_an_example_stands_in_its_answer_with_the_facts_of_its_case(
    document: dict[str, Any], shown: dict[str, Declared], rulebook: Rulebook, operation: str
) -> None:
    kept, one = KEPT[operation], shown[operation]
    assert kept.rule is not None
    form = RequestForm(document, one.operation)
    given = known_facts(firing_case(rulebook.rules[kept.rule]))
    carried = {fact: value for fact, value in given.items() if one.shown.fields.get(fact) or form.field_of(fact)}
    assert carried, "no fact of the case reaches the request"
    concluded = [
        {fact["fact"]: fact["value"] for fact in said["facts"]}
        for said in kept.answer["conclusions"]
        if said["rule"] == kept.rule
    ]
    assert any(all(facts.get(fact, value) == value for fact, value in carried.items()) for facts in concluded)


def test_the_examples_are_what_the_write_command_would_keep_now(app: Flask) -> None:
    assert asked_now(app) == KEPT, MEND


def test_an_example_does_not_hang_on_the_day_on_which_it_is_asked(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    class Later(datetime):
        @classmethod
        def now(cls, tz: tzinfo | None = None) -> Later:
            return cls(2031, 7, 9, 12, tzinfo=UTC)

    monkeypatch.setattr(season_plans, "datetime", Later)
    assert ask_all(app) == asked_now(app)


def test_no_example_holds_the_digest_of_the_rulebook(rulebook: Rulebook) -> None:
    assert [name for name, kept in KEPT.items() if rulebook.digest in kept.as_text()] == []


def test_the_refusal_that_is_shown_is_that_of_the_service(app: Flask, document: dict[str, Any]) -> None:
    kept = KEPT[REFUSED]
    media = document["components"]["responses"]["UNPROCESSABLE_ENTITY"]["content"]["application/problem+json"]
    assert media["examples"][kept.name]["value"] == kept.answer
    assert {one["pointer"] for one in kept.answer["errors"]} == {"/site/widht_ft", "/site/sun_hours"}
    assert ask(app, "POST /v1/variety-suggestions", WRONG).json == kept.answer, MEND
    assert faults(document, media["schema"], kept.answer) == []


def test_serving_the_document_asks_the_service_nothing(app: Flask, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(app.view_functions, "thinning-plans.plan_the_thinning", lambda: pytest.fail("it was asked"))
    monkeypatch.setitem(app.view_functions, "crops.get_crop", lambda crop: pytest.fail("it was asked"))
    assert app.test_client().get("/openapi.json").status_code == 200
    assert thinning.shown["plan_the_thinning"].rule == KEPT["post_v1_thinning_plans"].rule
