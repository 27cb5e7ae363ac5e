"""The OpenAPI document, and the one place where flask-smorest is bent to say what really happens.

Its own defaults would document errors as `application/json` with fields that we do not send, and would take over the
error handlers that keep headers such as Allow.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from copy import deepcopy
from http import HTTPStatus
from typing import Any

import flask_smorest
from flask import Flask

from service.api.problems import MEDIA_TYPE, SENTENCES, ProblemTold
from service.api.shown import ShownExample, read_examples, show

DESCRIPTION = """\
Advice for home growers of fruit trees, for use by the staff of a nursery.

Every question is a POST that answers with the digest of the rulebook, the answer, the conclusions of the rules with
their reasons and sources, the cautions that belong to them, and what could not be judged because nobody knows it. A
field that a person may not know is left out or null; unknown is never taken for zero or for no. Lengths are in feet
and inches, temperatures in degrees Fahrenheit, and each field's unit stands in its name and in `x-unit`.

The examples of whole requests and answers are not written by hand: the request is made of a case that a rule gives for
itself, and the answer is what this service says to it. In them the digest of the rulebook, and the line at which a rule
begins, are replaced by a fixed value.

Errors are problem details (RFC 9457). The advice does not replace a product label, a local extension office or a look
at the tree.
"""


class HouseApi(flask_smorest.Api):  # type: ignore[misc]  # it has no types
    """The API of this service; errors are left to problems.py, and documented as what they are."""

    ERROR_SCHEMA = ProblemTold
    DEFAULT_ERROR_RESPONSE_NAME = None

    def _register_error_handlers(self) -> None:
        """problems.py has them already."""

    def _register_pagination_header(self) -> None:
        """Pages are told in the body; see paging.py."""

    def _register_responses(self) -> None:
        for status in HTTPStatus:
            if status >= 400:
                self.spec.components.response(status.name, _problem_response(status), lazy=True)


def _problem_response(status: HTTPStatus) -> dict[str, Any]:
    said = SENTENCES.get(int(status), status.phrase + ".")
    example = {"type": f"/docs#problem-{int(status)}", "title": status.phrase, "status": int(status), "detail": said}
    return {"description": said, "content": {MEDIA_TYPE: {"schema": ProblemTold, "example": example}}}


def make_api(app: Flask, version: str) -> HouseApi:
    """The API of an app, still without resources."""
    app.config.update(API_TITLE="Fruitwright", API_VERSION=version, OPENAPI_VERSION="3.1.0", OPENAPI_URL_PREFIX=None)
    spec: dict[str, Any] = {"info": {"description": DESCRIPTION, "license": {"name": "All rights reserved"}}}
    return HouseApi(app, spec_kwargs=spec)


def document_of(api: HouseApi, examples: Mapping[str, ShownExample] | None = None) -> dict[str, Any]:
    """The whole document as plain data, with these examples or those that are kept; asks the service nothing."""
    document = bare_document_of(api)
    show(document, read_examples() if examples is None else examples)
    return document


def bare_document_of(api: HouseApi) -> dict[str, Any]:
    """The document without examples of whole requests; each operation gets an id made of its method and path."""
    document: dict[str, Any] = deepcopy(api.spec.to_dict())
    for path, operations in document["paths"].items():
        for method, operation in operations.items():
            if isinstance(operation, dict):
                operation["operationId"] = _operation_id(method, path)
    return document


def path_in_document(address: str) -> str:
    """An address of the app as the document writes it.

    >>> path_in_document("/v1/crops/<crop>")
    '/v1/crops/{crop}'
    """
    return re.sub(r"<(?:[^<>:]+:)?([^<>]+)>", r"{\1}", address)


def _operation_id(method: str, path: str) -> str:
    """An id that stays the same as long as the address does.

    >>> _operation_id("get", "/v1/crops/{crop}")
    'get_v1_crops_by_crop'
    """
    words = [word.replace("{", "by_").strip("}") for word in path.split("/") if word]
    return re.sub(r"[^a-z0-9]+", "_", "_".join([method, *words]))
