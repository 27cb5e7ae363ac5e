"""Reads what a client sends, and says where it went wrong."""

from __future__ import annotations

from typing import Any, NoReturn

import flask
import marshmallow as ma
import orjson
from webargs.flaskparser import FlaskParser
from werkzeug.exceptions import BadRequest, UnsupportedMediaType

from service.api.pointers import faults_of
from service.domain.errors import NotUnderstood


class QuestionParser(FlaskParser):
    """Reads JSON bodies and query strings for the resources; the schema decides what is unknown."""

    DEFAULT_UNKNOWN_BY_LOCATION: dict[str, str | None] = {}  # noqa: RUF012  (the parent declares it so)

    def load_json(self, req: flask.Request, schema: ma.Schema) -> Any:
        """The JSON body; anything else in a body is refused by its media type."""
        if not req.is_json:
            raise UnsupportedMediaType
        return read_json(req.get_data(cache=True))

    def handle_error(self, error: ma.ValidationError, req: flask.Request, schema: ma.Schema, **_: Any) -> NoReturn:
        """Turn what the schema refused into pointers and sentences."""
        raise NotUnderstood(*faults_of(error.messages)) from error


def read_json(body: bytes) -> Any:
    """The value in a JSON text; says line and column where it is none."""
    try:
        return orjson.loads(body)
    except orjson.JSONDecodeError as fault:
        place = f"line {fault.lineno}, column {fault.colno}"
        raise BadRequest(f"The body is not JSON: {fault.msg} ({place}).") from None
