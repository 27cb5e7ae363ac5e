"""JSON in and out through orjson: fast, and strict about NaN and stray surrogates."""

from __future__ import annotations

from typing import Any

import orjson
from flask.json.provider import JSONProvider


class OrjsonProvider(JSONProvider):
    """What flask.json and jsonify use in this service."""

    def dumps(self, obj: Any, **kwargs: Any) -> str:
        """The JSON text of plain data."""
        return orjson.dumps(obj).decode()

    def loads(self, s: str | bytes, **kwargs: Any) -> Any:
        """The plain data of a JSON text."""
        return orjson.loads(s)
