"""What the document shows of an operation: a request and the answer that the service really gave to it.

A view says from which rule its example is made:

    @blueprint.route("/pruning-plans", methods=["POST"])
    @blueprint.asks(PruningAsked)
    @blueprint.answers(...)
    @blueprint.shows("cut-dead-wood-that-is-seen", {"tree.signs": "observations"}, documented=("age_years",))

`fruitwright openapi write` turns the facts of a case in which that rule fires back into a request, asks the service,
and keeps both in a file below `openapi/examples/`, named after the operation. Serving the document only reads these
files, so a start asks nothing; a test asks all of them again and tells when a file is out of step.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from service.settings import CHECKOUT

EXAMPLES = CHECKOUT / "openapi" / "examples"
JSON = "application/json"
REFUSED = "problem_422"


@dataclass(frozen=True, slots=True)
class Shown:
    """How the example of an operation is made.

    `rule` is the rule whose case becomes the request, and `fields` names the field of the request that carries a fact.
    A fact that is not named there goes to the field of its own name (site.soil_ph, or age_years for tree.age_years);
    one that no field carries is left to the service, which works it out. `documented` names fields that take their own
    documented example, and `wishes` gives values that keep the answer short.
    """

    rule: str | None = None
    fields: Mapping[str, str] = field(default_factory=dict)
    documented: tuple[str, ...] = ()
    wishes: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ShownExample:
    """A request and its answer; `name` tells it from other examples of the operation."""

    name: str
    summary: str
    rule: str | None
    request: Mapping[str, Any]
    answer: Any

    def as_text(self) -> str:
        """The example as its file holds it."""
        told = {name: getattr(self, name) for name in self.__slots__}
        return json.dumps(told, indent=1, ensure_ascii=False) + "\n"


def read_examples(folder: Path = EXAMPLES) -> dict[str, ShownExample]:
    """The examples that are kept, by the id of their operation."""
    files = sorted(folder.glob("*.json"))
    return {file.stem: ShownExample(**json.loads(file.read_text(encoding="utf-8"))) for file in files}


def write_examples(examples: Mapping[str, ShownExample], folder: Path) -> None:
    """Keep these examples, and no others, in the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    for file in folder.glob("*.json"):
        if file.stem not in examples:
            file.unlink()
    for name, example in examples.items():
        (folder / f"{name}.json").write_text(example.as_text(), encoding="utf-8")


def show(document: dict[str, Any], examples: Mapping[str, ShownExample]) -> None:
    """Put the examples where the document has room for them."""
    for operation in operations_of(document):
        example = examples.get(operation["operationId"])
        if example is not None:
            _show_request(operation, example)
            _media_of(operation["responses"]["200"])["examples"] = _named(example, example.answer)
    if REFUSED in examples:
        _show_refusal(document, examples[REFUSED])


def operations_of(document: Mapping[str, Any]) -> Iterator[dict[str, Any]]:
    """Every operation of the document."""
    for item in document["paths"].values():
        yield from (said for said in item.values() if isinstance(said, dict) and "responses" in said)


def _show_request(operation: dict[str, Any], example: ShownExample) -> None:
    if "requestBody" in operation:
        _media_of(operation["requestBody"])["examples"] = _named(example, example.request)
        return
    for parameter in operation.get("parameters", ()):
        if parameter["name"] in example.request:
            parameter["examples"] = _named(example, example.request[parameter["name"]])


def _show_refusal(document: dict[str, Any], example: ShownExample) -> None:
    content = document["components"]["responses"]["UNPROCESSABLE_ENTITY"]["content"]
    for media in content.values():
        media.pop("example", None)
        media["examples"] = _named(example, example.answer)


def _media_of(said: dict[str, Any]) -> dict[str, Any]:
    media: dict[str, Any] = said["content"][JSON]
    return media


def _named(example: ShownExample, value: Any) -> dict[str, Any]:
    return {example.name: {"summary": example.summary, "value": value}}
