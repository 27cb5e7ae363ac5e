"""The docs page holds everything that the document holds, for people."""

from __future__ import annotations

import html
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.api.document import document_of
from service.pages.docs import chapters, refusal, schemas


@pytest.fixture(scope="module")
def document(app: Flask) -> dict[str, Any]:
    """The document of the running code."""
    return document_of(app.extensions["fruitwright_api"])


def test_every_operation_has_its_place(document: dict[str, Any]) -> None:
    shown = {(one.method.lower(), one.path) for chapter in chapters(document) for one in chapter.operations}
    there = {(method, path) for path, item in document["paths"].items() for method in item if method != "parameters"}
    assert shown == there


def test_every_field_of_every_schema_is_shown_with_its_unit(document: dict[str, Any]) -> None:
    shown = {f"{name}.{field.name}": field for name, fields in schemas(document) for field in fields}
    for name, schema in document["components"]["schemas"].items():
        for field, said in schema.get("properties", {}).items():
            assert shown[f"{name}.{field}"].unit == said.get("x-unit")
            assert shown[f"{name}.{field}"].required == (field in schema.get("required", ()))


def test_an_id_in_an_address_is_explained(document: dict[str, Any]) -> None:
    one = next(one for chapter in chapters(document) for one in chapter.operations if one.path == "/v1/crops/{crop}")
    assert [parameter["name"] for parameter in one.parameters] == ["crop"]


def test_a_question_is_shown_with_an_answer_of_the_service(client: FlaskClient, document: dict[str, Any]) -> None:
    one = next(one for chapter in chapters(document) for one in chapter.operations if one.path == "/v1/pruning-plans")
    (_, _, request), *_ = one.bodies
    answer = next(body[2] for answer in one.answers if answer.status == "200 OK" for body in answer.bodies)
    assert '"observations": [' in str(request)
    assert '"rule": "cut-dead-wood-that-is-seen"' in str(answer)
    page = html.unescape(client.get("/docs").text)
    assert str(request) in page
    assert str(answer) in page
    assert str(refusal(document)) in page


def test_the_parameters_are_shown_as_they_were_asked_for_the_answer_beside_them(client: FlaskClient) -> None:
    chapter = client.get("/docs").text.partition('id="get_v1_pollination"')[2].partition("</table>")[0]
    assert "<code>Van</code>" in chapter


def test_a_problem_type_leads_to_its_explanation(client: FlaskClient) -> None:
    kind = client.get("/nowhere").json["type"]
    address, _, anchor = kind.partition("#")
    assert f'id="{anchor}"' in client.get(address).text


def test_the_way_in_leads_to_the_counter_and_the_docs(client: FlaskClient) -> None:
    page = client.get("/").text
    assert 'href="/counter"' in page
    assert 'href="/docs"' in page


def test_the_document_is_not_sent_again_to_one_who_has_it(client: FlaskClient) -> None:
    tag = client.get("/openapi.json").headers["ETag"]
    assert client.get("/openapi.json", headers={"If-None-Match": tag}).status_code == 304
