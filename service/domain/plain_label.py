"""A label record from plain values, as JSON, YAML and the database hold it, and back.

The fields are those of the domain's record and stand nowhere a second time; the schema of the API says what they mean.
Whoever calls has checked types and bounds. Amounts are taken out of the texts in which labels print how much of a
product is used: that stays on the label.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from types import UnionType
from typing import Any, TypeVar, cast, get_args, get_origin, get_type_hints

from service.domain.label import LabelRecord

RATE = "rate_text"
ON_THE_LABEL = "[the amount stands on the label]"
MAY_HOLD_AMOUNTS = (
    "max_seasonal_ai_text", "max_total_text", "phi_text", "allowed_mixes_text", "statement", "reentry_text",
    "pests_as_printed", "residential_prohibited_text", "text",
)  # fmt: skip
_UNITS = (
    r"fl\.? ?oz|fluid ounces?|oz|ounces?|lbs?|pounds?|pts?|pints?|qts?|quarts?|gal(?:s|lons?)?|tsps?|tbsps?|cups?|"
    r"teaspoon(?:ful)?s?|tablespoon(?:ful)?s?|ml|milliliters?|litres?|liters?|kgs?|kilograms?|grams?|g"
)
_NUMBER = r"\d{1,6}(?:[.,/]\d{1,6}){0,2}"
_SPREAD = rf"(?:\s?(?:/|per|in)\s?(?:{_NUMBER}\s?)?(?:{_UNITS}|acre|sq\.? ?ft|square feet|tree)\b)?"
_AMOUNT = re.compile(
    rf"(?<![\d.,/])(?:{_NUMBER}\s?(?:-|–|to)\s?)?{_NUMBER}\s?(?:{_UNITS})\b\.?{_SPREAD}", re.IGNORECASE
)
R = TypeVar("R")


@dataclass(frozen=True, slots=True)
class ReadRecord:
    """A record, and the pointers of what was left out of it because it says how much is used."""

    record: LabelRecord
    left_out: tuple[str, ...]


def read_record(plain: Mapping[str, Any]) -> ReadRecord:
    """The record in checked plain values; what is not there is unknown.

    >>> read = read_record({"product_name": "x", "sites": [{"crop_as_printed": "apple", "rate_text": "some"}]})
    >>> read.record.sites[0].crop_as_printed, read.left_out
    ('apple', ('/sites/0/rate_text',))
    """
    left_out: list[str] = []
    return ReadRecord(_object(LabelRecord, plain, at=("", left_out)), tuple(left_out))


def plain_record(record: LabelRecord) -> dict[str, Any]:
    """The record as plain values; unknown is None."""
    return cast(dict[str, Any], _plain(record))


def without_amounts(text: str) -> str:
    """A text of a label without the amounts in it.

    >>> without_amounts("Not more than 4 lb per acre a year from all products.")
    'Not more than [the amount stands on the label] a year from all products.'
    >>> without_amounts("Do not apply within 25 feet of water or 14 days of harvest.")
    'Do not apply within 25 feet of water or 14 days of harvest.'
    """
    return _AMOUNT.sub(ON_THE_LABEL, text)


Place = tuple[str, list[str]]


def _object(kind: type[R], plain: Mapping[str, Any], *, at: Place) -> R:
    pointer, left_out = at
    if plain.get(RATE):
        left_out.append(f"{pointer}/{RATE}")
    values = {}
    for name, hint in _hints(cast(Any, kind)).items():
        given = plain.get(_written(name))
        given = given.strip() if isinstance(given, str) else given
        if given is not None and (given != "" or hint is str):
            values[name] = _value(hint, given, at=(f"{pointer}/{_written(name)}", left_out))
    return kind(**values)


def _value(hint: Any, given: Any, *, at: Place) -> Any:
    kind = _kind(hint)
    if get_origin(kind) is tuple:
        pointer, left_out = at
        inner = get_args(kind)[0]
        return tuple(_value(inner, one, at=(f"{pointer}/{place}", left_out)) for place, one in enumerate(given))
    if dataclasses.is_dataclass(kind):
        return _object(cast(type, kind), given, at=at)
    if kind is date:
        return given if isinstance(given, date) else date.fromisoformat(given)
    if kind is float:
        return float(given)
    return _text(given, at=at) if isinstance(given, str) else given


def _text(given: str, *, at: Place) -> str:
    pointer, left_out = at
    if pointer.rsplit("/", 1)[-1] not in MAY_HOLD_AMOUNTS:
        return given
    kept = without_amounts(given)
    if kept != given:
        left_out.append(pointer)
    return kept


def _kind(hint: Any) -> Any:
    """The type of a field that may also be None."""
    if isinstance(hint, UnionType):
        return next(one for one in get_args(hint) if one is not type(None))
    return hint


@cache
def _hints(kind: Any) -> dict[str, Any]:
    return get_type_hints(kind)


def _plain(value: Any) -> Any:
    if dataclasses.is_dataclass(value):
        return {_written(one.name): _plain(getattr(value, one.name)) for one in dataclasses.fields(value)}
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [_plain(one) for one in value]
    return value


def _written(name: str) -> str:
    """The name of a field in JSON: “with” is a word of Python and stands as `other` in the domain.

    >>> _written("other"), _written("ppe")
    ('with', 'ppe')
    """
    return "with" if name == "other" else name
