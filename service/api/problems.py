"""Every error as problem details (RFC 9457): what is wrong, where, and never what an exception said.

`errors` names each place: a JSON pointer into the body, or `/name` of a query parameter, with a sentence.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import flask
import structlog
from flask import Flask, Response
from werkzeug.exceptions import HTTPException, InternalServerError, ServiceUnavailable, UnprocessableEntity

from service.api.fields import Told, list_of, nested, text, whole
from service.domain.errors import NotUnderstood
from service.storage.database import DatabaseAway

MEDIA_TYPE = "application/problem+json"
SENTENCES = {
    400: "The request cannot be read.",
    403: "A kiosk may not do this, or its key is not known.",
    404: "Nothing stands at this address.",
    405: "This address does not take this method; the Allow header lists those that it takes.",
    409: "This does not agree with what was sent before.",
    413: "The body is larger than this service takes.",
    415: "The body must be JSON (Content-Type: application/json) or another media type that the document names.",
    422: "Some of what was sent cannot be used; errors says what and where.",
    429: "Too many requests at once; try again in a moment.",
    500: "Something went wrong on our side. The request id in the answer's X-Request-Id header finds it in the log.",
    503: "The service is not ready yet.",
}
log = structlog.get_logger("fruitwright.problems")


class FaultTold(Told):
    """One thing that cannot be used."""

    pointer = text(
        "JSON pointer into the body, or the name of the query parameter after a slash; empty for the whole.",
        example="/site/width_ft",
        longest=1000,
        required=True,
    )
    detail = text(
        "What is wrong with it and what is taken.", example="This must be a number.", longest=5000, required=True
    )


class ProblemTold(Told):
    """Problem details (RFC 9457)."""

    type = text("Address of the explanation of this kind of problem.", example="/docs#problem-422", required=True)
    title = text("Name of the kind of problem.", example="Unprocessable Entity", required=True)
    status = whole("HTTP status.", unit="status code", example=422, low=400, high=599, required=True)
    detail = text("What is wrong, in a sentence.", example=SENTENCES[422], longest=5000, required=True)
    errors = list_of(
        nested(FaultTold, "One thing that cannot be used."),
        "Each place that cannot be used.",
        example=[{"pointer": "/site/width_ft", "detail": "This must be a number."}],
        nullable=False,
    )


def problem(error: HTTPException, detail: str | None = None, *, faults: Sequence[tuple[str, str]] = ()) -> Response:
    """The problem response of an HTTP error; headers such as Allow and Retry-After are kept."""
    status = error.code or 500
    content: dict[str, Any] = {
        "type": f"/docs#problem-{status}",
        "title": error.name,
        "status": status,
        "detail": detail or SENTENCES.get(status, error.name + "."),
    }
    if faults:
        content["errors"] = [{"pointer": pointer, "detail": sentence} for pointer, sentence in faults]
    response = Response(flask.json.dumps(content), status=status, mimetype=MEDIA_TYPE)
    for name, value in error.get_headers(flask.request.environ):
        if name.lower() not in ("content-type", "content-length"):
            response.headers.add(name, value)
    response.headers["Cache-Control"] = "no-store"
    return response


def explain_errors(app: Flask) -> None:
    """Let every error of the app leave as problem details."""
    app.register_error_handler(HTTPException, _of_http)
    app.register_error_handler(NotUnderstood, _of_not_understood)
    app.register_error_handler(DatabaseAway, _of_database_away)


def _of_http(error: HTTPException) -> Response | HTTPException:
    if error.code is None or error.code < 400:
        return error  # a redirect is no problem
    if isinstance(error, InternalServerError):
        return problem(error)
    return problem(error, None if error.description == type(error).description else error.description)


def _of_not_understood(error: NotUnderstood) -> Response:
    return problem(UnprocessableEntity(), faults=error.faults)


def _of_database_away(error: DatabaseAway) -> Response:
    log.error("database away", exc_info=error)
    return problem(ServiceUnavailable(), str(error))
