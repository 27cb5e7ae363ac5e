"""Turns the OpenAPI document into what the docs page shows: chapters of operations, and tables of fields."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

LIMITS = ("minimum", "maximum", "minLength", "maxLength", "minItems", "maxItems", "pattern")


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of an operation: status, sentence, media types with the schema they hold and an example."""

    status: str
    description: str
    bodies: tuple[tuple[str, str | None, str | None], ...]


@dataclass(frozen=True, slots=True)
class Operation:
    """One method of one address."""

    id: str
    method: str
    path: str
    summary: str
    description: str
    parameters: tuple[Mapping[str, Any], ...]
    bodies: tuple[tuple[str, str | None, str | None], ...]
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Chapter:
    """The operations of one resource."""

    name: str
    description: str
    operations: tuple[Operation, ...]


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a schema, as a row of its table."""

    name: str
    type: str
    schema: str | None
    unit: str | None
    required: bool
    description: str
    limits: str
    example: str | None


def chapters(document: Mapping[str, Any]) -> list[Chapter]:
    """The operations by resource, in the order of the document's tags."""
    found: dict[str, list[Operation]] = {}
    for path, item in document["paths"].items():
        for method in ("get", "post", "put", "patch", "delete"):
            if method in item:
                shared = item.get("parameters", [])
                operation = _operation(document, item[method], method=method, path=path)
                both = (*shared, *operation.parameters)
                found.setdefault(item[method]["tags"][0], []).append(_with(operation, both))
    tags = {tag["name"]: tag.get("description", "") for tag in document.get("tags", [])}
    return [Chapter(name, tags.get(name, ""), tuple(operations)) for name, operations in found.items()]


def schemas(document: Mapping[str, Any]) -> list[tuple[str, list[Field]]]:
    """Every schema with its fields, by name."""
    known = document.get("components", {}).get("schemas", {})
    return [(name, list(_fields(known[name]))) for name in sorted(known)]


def refusal(document: Mapping[str, Any]) -> str | None:
    """What the service says to a body that it cannot use, as an example."""
    said = document["components"]["responses"]["UNPROCESSABLE_ENTITY"]["content"]
    return next((_example(body) for body in said.values()), None)


def _with(operation: Operation, parameters: tuple[Mapping[str, Any], ...]) -> Operation:
    values = {name: getattr(operation, name) for name in Operation.__slots__}
    return Operation(**{**values, "parameters": parameters})


def _operation(document: Mapping[str, Any], operation: Mapping[str, Any], *, method: str, path: str) -> Operation:
    return Operation(
        id=operation["operationId"],
        method=method.upper(),
        path=path,
        summary=operation.get("summary", ""),
        description=operation.get("description", ""),
        parameters=tuple(operation.get("parameters", ())),
        bodies=_bodies(operation.get("requestBody", {})),
        answers=tuple(_answer(document, status, said) for status, said in sorted(operation["responses"].items())),
    )


def _answer(document: Mapping[str, Any], status: str, said: Mapping[str, Any]) -> Answer:
    if "$ref" in said:
        said = document["components"]["responses"][said["$ref"].rsplit("/", 1)[1]]
    return Answer(f"{status} {HTTPStatus(int(status)).phrase}", said.get("description", ""), _bodies(said))


def _bodies(said: Mapping[str, Any]) -> tuple[tuple[str, str | None, str | None], ...]:
    content = said.get("content", {})
    return tuple((media, _schema_name(body), _example(body)) for media, body in content.items())


def _schema_name(said: Mapping[str, Any]) -> str | None:
    return _name_in(said.get("schema", {}))


def _name_in(schema: Mapping[str, Any]) -> str | None:
    for one in (schema, schema.get("items", {}), *schema.get("anyOf", ())):
        if "$ref" in one:
            return str(one["$ref"]).rsplit("/", 1)[1]
    return None


def _example(said: Mapping[str, Any]) -> str | None:
    examples = said.get("examples")
    example = next(iter(examples.values()))["value"] if examples else said.get("example")
    return None if example is None else json.dumps(example, indent=2, ensure_ascii=False)


def _fields(schema: Mapping[str, Any]) -> Iterator[Field]:
    for name, said in schema.get("properties", {}).items():
        example = said.get("examples", [None])[0]
        yield Field(
            name=name,
            type=_type(said),
            schema=_name_in(said),
            unit=said.get("x-unit"),
            required=name in schema.get("required", ()),
            description=said.get("description", ""),
            limits=_limits(said),
            example=None if example is None else json.dumps(example, ensure_ascii=False),
        )


def _type(said: Mapping[str, Any]) -> str:
    kinds = said.get("type")
    if kinds is None:
        return "object" if _name_in(said) else "any value"
    kinds = kinds if isinstance(kinds, list) else [kinds]
    return " or ".join("list of objects" if kind == "array" and _name_in(said) else str(kind) for kind in kinds)


def _limits(said: Mapping[str, Any]) -> str:
    limits = [f"{name} {said[name]}" for name in LIMITS if name in said]
    if "enum" in said:
        limits.append("one of " + ", ".join(str(value) for value in said["enum"] if value is not None))
    return "; ".join(limits)
