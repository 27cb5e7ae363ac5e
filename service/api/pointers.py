"""JSON pointers (RFC 6901) for the places that a schema refuses."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

OUR_WORDS = {
    "Missing data for required field.": "This field is needed.",
    "Field may not be null.": "This field cannot be null.",
    "Invalid input type.": "This must be an object.",
}


def step(name: object) -> str:
    """One step of a pointer.

    >>> step("a/b~c"), step(3)
    ('/a~1b~0c', '/3')
    """
    return "/" + str(name).replace("~", "~0").replace("/", "~1")


def faults_of(messages: Any) -> list[tuple[str, str]]:
    """Pointers and sentences of a schema's messages; the first level is the place of the request (json, query).

    >>> faults_of({"json": {"site": {"width_ft": ["This must be a number."]}}})
    [('/site/width_ft', 'This must be a number.')]
    >>> faults_of({"json": {"_schema": ["Invalid input type."]}})
    [('', 'This must be an object.')]
    """
    return [fault for place in messages.values() for fault in _walk("", place)]


def _walk(pointer: str, found: Any) -> Iterator[tuple[str, str]]:
    if isinstance(found, dict):
        for name, inner in found.items():
            yield from _walk(pointer if name == "_schema" else pointer + step(name), inner)
    elif isinstance(found, list):
        for inner in found:
            yield from _walk(pointer, inner)
    else:
        yield pointer, OUR_WORDS.get(str(found), str(found))
