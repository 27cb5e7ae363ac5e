"""Fields that take a value in one of two forms: a product by id or as a label record, a text or a flag."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import marshmallow as ma

from service.api.fields import text
from service.api.label_asked import ID_PATTERN, LabelAsked

_NEITHER = "This must be the id of a product, or a label record."
_RECORD = {"$ref": "#/components/schemas/LabelAsked"}


class LabelOrId(ma.fields.Field[Any]):
    """The id of a product, or an object that is a whole label record."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if isinstance(value, str):
            return _ID.deserialize(value)
        if isinstance(value, dict):
            return LabelAsked().load(value)
        raise ma.ValidationError(_NEITHER)


class TextOrFlag(ma.fields.Field[Any]):
    """A name, or true or false."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Any:
        if isinstance(value, bool) or (isinstance(value, str) and 1 <= len(value) <= 100):
            return value
        raise ma.ValidationError("This must be a name of 1 to 100 characters, or true or false.")


_ID = text("Id of a product.", example="DP01", longest=64, pattern=ID_PATTERN, wants=_NEITHER)


def label_or_id(description: str, *, nullable: bool = False) -> LabelOrId:
    """A product by its id or as a label record."""
    by_id = {"type": "string", "maxLength": 64, "pattern": f"^(?:{ID_PATTERN})$"}
    forms: list[dict[str, Any]] = [by_id, _RECORD, *([{"type": "null"}] if nullable else [])]
    return LabelOrId(allow_none=nullable, metadata={"description": description, "examples": ["DP01"], "anyOf": forms})


def text_or_flag(description: str, *, example: str) -> TextOrFlag:
    """A name, or true or false."""
    forms = [{"type": "string", "minLength": 1, "maxLength": 100}, {"type": "boolean"}, {"type": "null"}]
    return TextOrFlag(allow_none=True, metadata={"description": description, "examples": [example], "anyOf": forms})
