"""Fields that take exactly what the document says, with a sentence for what they refuse.

marshmallow is generous: it reads "12" as a number and "yes" as true. A form that sends text where a number is due has
a fault, so a JSON body must hold the documented type. A query string holds nothing but text, so there the text of a
number is read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date
from typing import Any, TypeVar

import marshmallow as ma
from marshmallow import fields, validate

_NUMBER_TEXT = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]{1,2})?")
_WHOLE_TEXT = re.compile(r"-?(0|[1-9][0-9]{0,15})")
V = TypeVar("V")


def comes_as_text(field: fields.Field[Any]) -> bool:
    """True when the field stands in a query string, where every value is text."""
    return bool(getattr(field.root, "from_query", False))


class Number(fields.Float):
    """A number with or without decimals; true, "12" and NaN are none."""

    def _validated(self, value: Any) -> float:
        if isinstance(value, str) and comes_as_text(self) and _NUMBER_TEXT.fullmatch(value):
            value = float(value)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise self.make_error("invalid", input=value)
        return super()._validated(value)


class Whole(fields.Integer):
    """A whole number; 3.0 is one, 3.5 and "3" are none."""

    def _validated(self, value: Any) -> int:
        if isinstance(value, str) and comes_as_text(self) and _WHOLE_TEXT.fullmatch(value):
            value = int(value)
        if isinstance(value, float) and value.is_integer():
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int):
            raise self.make_error("invalid", input=value)
        return value


class Flag(fields.Boolean):
    """True or false, and nothing that merely sounds like it."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> bool:
        if comes_as_text(self) and value in ("true", "false"):
            return bool(value == "true")
        if not isinstance(value, bool):
            raise self.make_error("invalid", input=value)
        return value


class Day(fields.String):
    """A date of the calendar as text, such as 2026-03-20; it stays text once it is checked."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        text = super()._deserialize(value, attr, data, **kwargs)
        try:
            found = date.fromisoformat(text)
        except ValueError:
            raise self.make_error("invalid", input=value) from None
        if text != found.isoformat():
            raise self.make_error("invalid", input=value)
        return text


class Within(validate.Range):
    """Refuses a number outside its bounds (both ends included) and names bounds and unit."""

    def __init__(self, low: float | None, high: float | None, unit: str | None) -> None:
        super().__init__(min=low, max=high)
        self.unit = unit

    def _format_error(self, value: Any, message: str) -> str:
        unit = f" {self.unit}" if self.unit and self.unit != "count" else ""
        if self.min is None:
            return f"{value:g} is too much; at most {self.max:g}{unit} is taken."
        if self.max is None:
            return f"{value:g} is too little; at least {self.min:g}{unit} is taken."
        return f"{value:g} is out of range; {self.min:g} to {self.max:g}{unit} is taken."


class Shape(validate.Regexp):
    """Refuses text that does not match a pattern from end to end."""

    def __init__(self, pattern: str, error: str) -> None:
        super().__init__(f"^(?:{pattern})$", error=error)
        self._whole = re.compile(pattern)

    def __call__(self, value: V) -> V:
        if not self._whole.fullmatch(str(value)):
            raise ma.ValidationError(self._format_error(str(value)))
        return value


class Among(validate.OneOf):
    """Refuses a word that is not in the list and says what the list holds."""

    def _format_error(self, value: Any) -> str:
        shown = ", ".join(str(choice) for choice in list(self.choices)[:30])
        return f"'{value}' is not one of the values taken here: {shown}."
