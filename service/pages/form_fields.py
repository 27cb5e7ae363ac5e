"""What the API's document says of every field of a question, flat, so that the forms of the pages cannot lag behind it.

A field stands under the JSON pointer of its value; in a list of objects, `{n}` stands for the place of the entry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.api.fields import MONTH_DAY

QUESTIONS = (
    "variety-suggestions", "thinning-plans", "pruning-plans", "season-plans", "diagnoses", "treatment-pointers",
    "planting-lists",
)  # fmt: skip
MONTHS = (1, 12)
NOT_TYPED = ("climate", "products", "product", "tank_mix")  # as a whole these come as a file or from the shelf
LONG_FROM = 500
Schema = Mapping[str, Any]


def form_fields(document: Schema) -> dict[str, dict[str, dict[str, Any]]]:
    """Every field of every question that takes JSON, by question and pointer."""
    schemas = document["components"]["schemas"]
    found = {}
    for question in QUESTIONS:
        content = document["paths"].get(f"/v1/{question}", {}).get("post", {}).get("requestBody", {}).get("content", {})
        if "application/json" in content:
            body = _resolved(content["application/json"]["schema"], schemas)
            found[question] = dict(_walk(body, "", schemas))
    return found


def words_in(fields: Mapping[str, Mapping[str, Mapping[str, Any]]]) -> set[str]:
    """Every word that a choice among the fields may take."""
    return {word for question in fields.values() for field in question.values() for word in field.get("values", ())}


def _walk(schema: Schema, pointer: str, schemas: Schema) -> Iterator[tuple[str, dict[str, Any]]]:
    for name, said in schema.get("properties", {}).items():
        place = f"{pointer}/{name}"
        field = _resolved(said, schemas)
        inner = _resolved(field.get("items", {}), schemas)
        if name in NOT_TYPED and ("properties" in field or "properties" in inner):
            continue
        if "properties" in field:
            yield from _walk(field, place, schemas)
        elif "properties" in inner:
            yield place, {"kind": "entries", "most": field.get("maxItems")}
            yield from _walk(inner, f"{place}/{{n}}", schemas)
        else:
            yield place, _described(field, inner, needed=name in schema.get("required", ()))


def _described(field: Schema, inner: Schema, *, needed: bool) -> dict[str, Any]:
    values = [word for word in field.get("enum") or inner.get("enum") or () if word is not None]
    limits = {short: field[name] for name, short in (("minimum", "low"), ("maximum", "high")) if name in field}
    told = {
        "kind": _kind(field, inner),
        "values": values,
        "unit": field.get("x-unit"),
        "most": field.get("maxItems"),
        "needed": needed,
        **limits,
    }
    return {name: value for name, value in told.items() if value not in (None, [], False)}


def _kind(field: Schema, inner: Schema) -> str:
    types = field.get("type") or ()
    types = (types,) if isinstance(types, str) else types
    if "array" in types:
        return _kind_of_list(inner)
    if field.get("enum"):
        return "choice"
    for name, kind in (("boolean", "flag"), ("integer", "whole"), ("number", "number")):
        if name in types:
            return kind
    if field.get("format") == "date":
        return "date"
    if MONTH_DAY in str(field.get("pattern")):
        return "month_day"
    return "long" if field.get("maxLength", 0) > LONG_FROM else "text"


def _kind_of_list(inner: Schema) -> str:
    if inner.get("enum"):
        return "checks"
    if (inner.get("minimum"), inner.get("maximum")) == MONTHS:
        return "months"
    return "numbers" if "number" in inner.get("type", ()) else "words"


def _resolved(schema: Schema, schemas: Schema) -> Schema:
    for one in (schema, *schema.get("anyOf", ()), *schema.get("allOf", ())):
        if "$ref" in one:
            return dict(schemas[str(one["$ref"]).rsplit("/", 1)[1]])
    return schema
