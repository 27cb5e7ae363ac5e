"""Real answers about treatments hold every field that the document promises and none that it does not know."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from openapi_schema_validator import OAS31Validator

from service.api.document import document_of
from service.domain.plain_label import plain_record
from tests.questions.made_up_labels import SPINOSAD, record, site

LABEL = {name: value for name, value in plain_record(SPINOSAD).items() if value is not None}
OTHER = plain_record(record("mineral oil", id="T03", sites=(site(crops=()),), demo=True))
TREATMENTS: list[dict[str, Any]] = [
    {"crop": "apple", "disorder": "codling_moth", "products": []},
    {"crop": "apple", "disorder": "codling_moth", "date": "2025-06-10", "stage": "fruit_set", "state": "PA",
     "harvest_from": "2025-09-20", "products": [LABEL, OTHER], "history": [{"date": "2025-06-05", "product": LABEL}],
     "tank_mix": [OTHER], "asks": ["rate", "washing"]},
    {"crop": "apple", "disorder": "codling_moth", "date": "2025-06-10", "products": [LABEL], "language": "es"},
    {"crop": "peach", "suspects": [{"disorder": "brown_rot", "likelihood": 0.4}], "products": [LABEL]},
    {"crop": "apple", "disorder": "nitrogen_deficiency", "products": [LABEL], "exposure_reported": True},
    {"crop": "apple", "disorder": "apple_scab", "own_stock_active": "diazinon", "products": []},
]  # fmt: skip
NAMES = ["nothing known", "all known", "in Spanish", "not sure", "exposure", "own stock"]


@pytest.fixture(scope="module")
def strict(app: Flask) -> dict[str, Any]:
    """The document with every object closed, so that a field that it does not know is a fault."""
    document = deepcopy(document_of(app.extensions["fruitwright_api"]))
    for schema in document["components"]["schemas"].values():
        schema["additionalProperties"] = False
    return document


def faults(document: dict[str, Any], path: str, told: Any, *, method: str = "post", status: str = "200") -> list[str]:
    schema = document["paths"][path][method]["responses"][status]["content"]["application/json"]["schema"]
    validator = OAS31Validator({**schema, "components": document["components"]})
    return [f"{fault.json_path}: {fault.message[:200]}" for fault in validator.iter_errors(told)][:10]


@pytest.mark.parametrize("question", TREATMENTS, ids=NAMES)
def test_the_treatment_question(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/treatment-pointers", json=question)
    assert told.status_code == 200, told.text
    assert faults(strict, "/v1/treatment-pointers", told.json) == []


def test_the_log_of_applications(client: FlaskClient, strict: dict[str, Any]) -> None:
    entry = {"reference": "contract-1", "date": "2025-04-20", "actives": ["captan"]}
    written = client.post("/v1/applications", json=entry).json
    assert faults(strict, "/v1/applications", written, status="201") == []
    assert faults(strict, "/v1/applications/{application}", client.get(f"/v1/applications/{written['id']}").json,
                  method="get") == []  # fmt: skip
    listed = client.get("/v1/applications", query_string={"reference": "contract-1"}).json
    assert faults(strict, "/v1/applications", listed, method="get") == []
