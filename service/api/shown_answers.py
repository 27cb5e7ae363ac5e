"""Asks the service what the document shows of it.

The digest of the rulebook and the line at which a rule begins change with every edit of any rule, so an example holds
their documented example instead; everything else stands as it was answered.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from flask import Flask
from werkzeug.test import TestResponse

from service.api import resources
from service.api.document import bare_document_of, path_in_document
from service.api.shown import JSON, REFUSED, Shown, ShownExample
from service.api.shown_request import RequestForm, firing_case, known_facts, request_of
from service.domain.errors import FruitwrightError
from service.parts import Parts
from service.reasoning.rule import Rule

REPLACED = ("rulebook", "line")
DOCUMENTED = "documented-examples"
WRONG = {"site": {"widht_ft": 30, "sun_hours": "eight"}}


class NotShown(FruitwrightError):
    """An example that the document declares cannot be made."""


@dataclass(frozen=True, slots=True)
class Declared:
    """An example that a resource declares, with the operation that it is of."""

    place: str
    operation: Mapping[str, Any]
    shared: tuple[Mapping[str, Any], ...]
    shown: Shown

    @property
    def id(self) -> str:
        """The id of the operation."""
        return str(self.operation["operationId"])


def ask_all(app: Flask) -> dict[str, ShownExample]:
    """Every example that the resources declare, asked of the service now, by the id of its operation."""
    document = bare_document_of(app.extensions["fruitwright_api"])
    shown = {one.id: _ask(app, document, one) for one in declared(app, document)}
    return {**shown, REFUSED: _refused(app)}


def declared(app: Flask, document: Mapping[str, Any]) -> Iterator[Declared]:
    """The examples that the resources declare, in the order of the document."""
    for resource in resources():
        for view, shown in resource.shown.items():
            rule = next(app.url_map.iter_rules(f"{resource.name}.{view}"))
            method, path = "post" if "POST" in (rule.methods or ()) else "get", path_in_document(rule.rule)
            item = document["paths"][path]
            place = f"{method.upper()} {path}"
            yield Declared(place, item[method], tuple(item.get("parameters", ())), shown)


def ask(app: Flask, place: str, request: Mapping[str, Any]) -> TestResponse:
    """What the service answers at a place such as `POST /v1/diagnoses`; GET takes the request as path and query."""
    method, path = place.split()
    in_path = {name: value for name, value in request.items() if f"{{{name}}}" in path}
    query = {name: value for name, value in request.items() if name not in in_path}
    sent = {"json": request} if method == "POST" else {"query_string": query}
    return app.test_client().open(path.format(**in_path), method=method, **sent)


def replaced(document: Mapping[str, Any], operation: Mapping[str, Any], told: Mapping[str, Any]) -> dict[str, Any]:
    """An answer in which what changes with every edit of the rules is the documented example of its field."""
    schema = operation["responses"]["200"]["content"][JSON]["schema"]["$ref"].rsplit("/", 1)[1]
    fields = document["components"]["schemas"][schema]["properties"]
    return {name: fields[name]["examples"][0] if name in REPLACED else value for name, value in told.items()}


def _ask(app: Flask, document: Mapping[str, Any], one: Declared) -> ShownExample:
    parts: Parts = app.extensions["fruitwright"]
    rule = _rule(parts, one)
    request = _request(document, one, rule)
    response = ask(app, one.place, request)
    told: Any = response.json
    if response.status_code != 200:
        raise NotShown(f"{one.place} refuses its example {request}: {told}")
    if rule is not None and rule.id not in {said["rule"] for said in told["conclusions"]}:
        raise NotShown(f"{one.place} does not come to the rule {rule.id} with {request}.")
    answer, made_from = replaced(document, one.operation, told), rule.id if rule else None
    return ShownExample(made_from or DOCUMENTED, _summary(rule), made_from, request, answer)


def _request(document: Mapping[str, Any], one: Declared, rule: Rule | None) -> dict[str, Any]:
    """The documented ids of an address with ids; else what the declaration says."""
    if one.shared:
        return {said["name"]: said["example"] for said in one.shared}
    facts = {} if rule is None else known_facts(firing_case(rule))
    return request_of(RequestForm(document, one.operation), one.shown, facts)


def _rule(parts: Parts, one: Declared) -> Rule | None:
    if one.shown.rule is None:
        return None
    if one.shown.rule not in parts.rulebook.rules:
        raise NotShown(f"The example of {one.place} is made from the rule {one.shown.rule}, which is not there.")
    return parts.rulebook.rules[one.shown.rule]


def _summary(rule: Rule | None) -> str:
    if rule is None:
        return "Made of the documented examples of the fields."
    return f"{rule.title} (made from a case of the rule {rule.id})."


def _refused(app: Flask) -> ShownExample:
    response = ask(app, "POST /v1/variety-suggestions", WRONG)
    if response.status_code != 422:
        raise NotShown(f"A wrong body was answered with {response.status}.")
    summary = "The answer to a misspelt field and a number sent as a word."
    return ShownExample("two-faults", summary, None, WRONG, response.json)
