"""The API's document: valid OpenAPI 3.1, the same as the file, and complete enough to build a kiosk from."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from flask import Flask
from openapi_spec_validator import validate

from service.api.document import document_of
from service.commands.openapi import DOCUMENT

METHODS = ("get", "post", "put", "patch", "delete")


@pytest.fixture(scope="module")
def document(app: Flask) -> dict[str, Any]:
    """The document of the running code."""
    return document_of(app.extensions["fruitwright_api"])


def operations(document: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any], list[Any]]]:
    for path, item in document["paths"].items():
        for method in METHODS:
            if method in item:
                shared = item.get("parameters", [])
                yield f"{method.upper()} {path}", item[method], [*shared, *item[method].get("parameters", [])]


def fields(document: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, schema in document["components"]["schemas"].items():
        for field, said in schema.get("properties", {}).items():
            yield f"{name}.{field}", said


def kinds(said: dict[str, Any]) -> set[str]:
    kind = said.get("type", [])
    return set(kind if isinstance(kind, list) else [kind])


def test_it_is_valid_openapi(document: dict[str, Any]) -> None:
    validate(document)
    assert document["openapi"].startswith("3.1")


def test_the_file_is_in_step_with_the_code(document: dict[str, Any]) -> None:
    assert json.loads(DOCUMENT.read_text(encoding="utf-8")) == document, "run: fruitwright openapi write"


def test_it_is_served_as_it_is(app: Flask, document: dict[str, Any]) -> None:
    assert app.test_client().get("/openapi.json").json == document


def test_every_field_has_a_description(document: dict[str, Any]) -> None:
    assert [
        name for name, said in fields(document) if not said.get("description", "").strip().endswith((".", "?"))
    ] == []


def test_every_field_has_an_example_of_its_own_or_of_its_schema(document: dict[str, Any]) -> None:
    assert [name for name, said in fields(document) if "examples" not in said and "$ref" not in json.dumps(said)] == []


def test_every_number_has_a_unit(document: dict[str, Any]) -> None:
    numbers = [(name, said) for name, said in fields(document) if kinds(said) & {"number", "integer"}]
    assert len(numbers) > 20
    assert [name for name, said in numbers if not said.get("x-unit")] == []


def test_a_unit_in_the_name_of_a_field_is_its_unit(document: dict[str, Any]) -> None:
    units = {"_ft": "ft", "_in": "in", "_m": "m", "_f": "°F", "_c": "°C", "_hours": "hours", "_years": "years"}
    wrong = [
        f"{name}: {said['x-unit']}"
        for name, said in fields(document)
        for ending, unit in units.items()
        if name.endswith(ending) and "x-unit" in said and said["x-unit"] != unit
    ]
    assert wrong == []


def test_every_operation_says_what_it_does(document: dict[str, Any]) -> None:
    for name, operation, _ in operations(document):
        assert operation["summary"].endswith("."), name
        assert operation["description"].endswith("."), name
        assert operation["tags"], name
        assert operation["operationId"], name


def test_no_two_operations_have_the_same_id(document: dict[str, Any]) -> None:
    ids = [operation["operationId"] for _, operation, _ in operations(document)]
    assert len(ids) == len(set(ids))


def test_every_tag_is_described(document: dict[str, Any]) -> None:
    described = {tag["name"] for tag in document["tags"] if tag["description"]}
    assert {tag for _, operation, _ in operations(document) for tag in operation["tags"]} <= described


def test_every_parameter_has_a_description_and_an_example(document: dict[str, Any]) -> None:
    for name, _, parameters in operations(document):
        for one in parameters:
            assert one["description"].endswith("."), (name, one["name"])
            assert "example" in one or "examples" in one["schema"], (name, one["name"])


def test_every_operation_that_reads_says_how_it_refuses(document: dict[str, Any]) -> None:
    for name, operation, parameters in operations(document):
        wanted = {"400", "413", "415", "422"} if "requestBody" in operation else set()
        wanted |= {"422"} if any(one["in"] == "query" for one in parameters) else set()
        wanted |= {"404"} if any(one["in"] == "path" for one in parameters) else set()
        assert wanted <= set(operation["responses"]), name


def test_every_error_is_documented_as_problem_details(document: dict[str, Any]) -> None:
    for name, operation, _ in operations(document):
        for status, said in operation["responses"].items():
            whole = document["components"]["responses"][said["$ref"].rsplit("/", 1)[1]] if "$ref" in said else said
            if status.startswith("4"):
                assert list(whole["content"]) == ["application/problem+json"], (name, status)


def test_nothing_is_hidden_behind_a_default_answer(document: dict[str, Any]) -> None:
    assert [name for name, operation, _ in operations(document) if "default" in operation["responses"]] == []
