"""A hand-out holds every field that the document promises and none that it does not know."""

from __future__ import annotations

from typing import Any

from flask import Flask
from flask.testing import FlaskClient
from openapi_schema_validator import OAS31Validator

from service.api.document import document_of

QUESTIONS = [
    {"question": "season-plans", "asked": {"trees": [{"crop": "apple"}], "site": {"region": "mid_atlantic"}}},
    {"question": "diagnoses", "asked": {"crop": "peach", "words": "thick red curled leaves"}},
]


def test_making_and_opening_one_answer_as_documented(client: FlaskClient, app: Flask) -> None:
    document: dict[str, Any] = document_of(app.extensions["fruitwright_api"])
    told = client.post("/v1/hand-outs", json={"questions": QUESTIONS, "language": "es"}).json
    again = client.get(told["page"].replace("/h/", "/v1/hand-outs/")).json
    for path, method, status in (("/v1/hand-outs", "post", "201"), ("/v1/hand-outs/{secret}", "get", "200")):
        schema = document["paths"][path][method]["responses"][status]["content"]["application/json"]["schema"]
        known = OAS31Validator({**schema, "components": document["components"]})
        assert [fault.message for fault in known.iter_errors(told)] == []
    assert again == told
    assert set(told) == set(document["components"]["schemas"]["HandOutTold"]["properties"])
    assert set(told["sheet"]) == set(document["components"]["schemas"]["SheetTold"]["properties"])
