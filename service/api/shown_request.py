"""Turns the facts of a rule's case back into a request, guided by what the document says of the request."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from service.api.shown import JSON, Shown
from service.domain.errors import FruitwrightError
from service.reasoning.rule import Example, Rule

Schema = Mapping[str, Any]


class NoSuchField(FruitwrightError):
    """A declared example names a field that the request does not have."""


def request_of(form: RequestForm, shown: Shown, facts: Mapping[str, Any]) -> dict[str, Any]:
    """The request of an example: facts of the rule's case, documented fields, wishes, and what must not be missing."""
    for fact, value in facts.items():
        path = shown.fields.get(fact) or form.field_of(fact)
        if path is not None:
            form.put(path, value)
    for path in shown.documented:
        form.put(path, form.documented(path))
    for path, value in shown.wishes.items():
        form.put(path, value)
    form.complete()
    return form.request


def firing_case(rule: Rule) -> Example:
    """The first case of a rule in which it fires; the loader lets no rule in without one."""
    return next(case for case in rule.examples if case.fires)


def known_facts(case: Example) -> dict[str, Any]:
    """The facts of a case that are known, with lists as JSON has them."""
    known = {fact: value for fact, value in case.given.items() if value is not None}
    return {fact: list(value) if isinstance(value, tuple) else value for fact, value in known.items()}


class RequestForm:
    """A request that is being filled in; a path such as `trees.crop` leads into the first entry of a list."""

    def __init__(self, document: Mapping[str, Any], operation: Mapping[str, Any]) -> None:
        self.request: dict[str, Any] = {}
        self._document = document
        self._schema = _asked_schema(operation)

    def field_of(self, fact: str) -> str | None:
        """The field that carries a fact by its name: the same path, or its last word at the top."""
        return next((path for path in (fact, fact.rsplit(".", 1)[-1]) if self._leads_somewhere(path)), None)

    def documented(self, path: str) -> Any:
        """The documented example of a field."""
        *_, (_, _, said) = self._steps(path)
        if not said.get("examples"):
            raise NoSuchField(f"The field '{path}' documents no example of its own.")
        return said["examples"][0]

    def put(self, path: str, value: Any) -> None:
        """Write a value; a single one becomes a list where the field is a list."""
        place: dict[str, Any] = self.request
        *way, (name, _, said) = self._steps(path)
        for step, is_list, _ in way:
            place = place.setdefault(step, [{}])[0] if is_list else place.setdefault(step, {})
        place[name] = [value] if _is_list(said) and not isinstance(value, list) else value

    def complete(self) -> None:
        """Give what must not be missing its documented example."""
        self._complete(self._schema, self.request)

    def _complete(self, schema: Schema, place: dict[str, Any]) -> None:
        schema = self._whole(schema)
        for name in schema.get("required", ()):
            if name not in place:
                place[name] = schema["properties"][name]["examples"][0]
        for name, value in place.items():
            for one in value if isinstance(value, list) else [value]:
                if isinstance(one, dict):
                    self._complete(schema["properties"][name], one)

    def _leads_somewhere(self, path: str) -> bool:
        try:
            return bool(list(self._steps(path)))
        except NoSuchField:
            return False

    def _steps(self, path: str) -> Iterator[tuple[str, bool, Schema]]:
        """Each step of a path: its name, whether it is a list, and what the document says of it."""
        schema = self._schema
        for name in path.split("."):
            known = self._whole(schema).get("properties", {})
            if name not in known:
                raise NoSuchField(f"The request has no field '{path}'; known beside '{name}': {', '.join(known)}.")
            schema = known[name]
            yield name, _is_list(schema), schema

    def _whole(self, schema: Schema) -> Schema:
        """The schema of an object that is referred to, of one that may be null, or of the entries of a list."""
        for one in (schema, schema.get("items", {}), *schema.get("anyOf", ())):
            if "$ref" in one:
                found: Schema = self._document["components"]["schemas"][one["$ref"].rsplit("/", 1)[1]]
                return found
        return schema


def _is_list(schema: Schema) -> bool:
    kinds = schema.get("type", [])
    return "array" in (kinds if isinstance(kinds, list) else [kinds])


def _asked_schema(operation: Mapping[str, Any]) -> Schema:
    """What an operation may be asked with: the schema of its body, or one made of its parameters."""
    if "requestBody" in operation:
        body: Schema = operation["requestBody"]["content"][JSON]["schema"]
        return body
    asked = [one for one in operation.get("parameters", ()) if one["in"] == "query"]
    needed = [one["name"] for one in asked if one.get("required")]
    return {"properties": {one["name"]: one["schema"] for one in asked}, "required": needed}
