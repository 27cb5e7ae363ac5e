"""Answers of the shelf hold every field that the document promises and none that it does not know."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from openapi_schema_validator import OAS31Validator

from service.api.document import document_of
from tests.made_up_labels import label

RATED = label(id="zz-contract", sites=[{"crop_as_printed": "cherry", "rate_text": "2 tbsp per gallon"}])


@pytest.fixture(scope="module")
def document(app: Flask) -> dict[str, Any]:
    """The document of the running code."""
    return document_of(app.extensions["fruitwright_api"])


def faults(document: Mapping[str, Any], place: tuple[str, str, str], value: Any) -> list[str]:
    path, method, status = place
    schema = document["paths"][path][method]["responses"][status]["content"]["application/json"]["schema"]
    validator = OAS31Validator({**schema, "components": document["components"]})
    return [f"{fault.json_path}: {fault.message[:200]}" for fault in validator.iter_errors(value)]


def test_the_shelf_answers_as_documented(client: FlaskClient, document: dict[str, Any]) -> None:
    made = client.post("/v1/shelf-products", json=RATED)
    assert faults(document, ("/v1/shelf-products", "post", "201"), made.json) == []
    listed = client.get("/v1/shelf-products?limit=5").json
    assert faults(document, ("/v1/shelf-products", "get", "200"), listed) == []
    one, version = "/v1/shelf-products/{product}", "/v1/label-versions/{product}/{version}"
    assert faults(document, (one, "get", "200"), client.get("/v1/shelf-products/zz-contract").json) == []
    changed = client.put("/v1/shelf-products/zz-contract", json=label(exempt_25b={"actives": [{"display_name": "x"}]}))
    assert faults(document, (one, "put", "200"), changed.json) == []
    assert faults(document, (version, "get", "200"), client.get("/v1/label-versions/zz-contract/1").json) == []
    all_versions = client.get("/v1/label-versions/zz-contract").json
    assert faults(document, ("/v1/label-versions/{product}", "get", "200"), all_versions) == []


def test_an_import_answers_as_documented(client: FlaskClient, document: dict[str, Any]) -> None:
    sent = {"products": [label(id="zz-import"), RATED]}
    for query in ("?dry_run=true", "", ""):
        told = client.post(f"/v1/shelf-imports{query}", json=sent).json
        assert faults(document, ("/v1/shelf-imports", "post", "200"), told) == []


def test_actives_answer_as_documented(client: FlaskClient, document: dict[str, Any]) -> None:
    told = client.get("/v1/actives?limit=200").json
    assert faults(document, ("/v1/actives", "get", "200"), told) == []


def test_a_loose_answer_would_be_found(document: dict[str, Any]) -> None:
    assert faults(document, ("/v1/actives/{active}", "get", "200"), {"iso_name": 3}) != []
