"""One cell of a shelf table: what is written in it becomes a value, and a value is written so that it comes back.

A spreadsheet takes a text that begins with = + - or @ for a formula. Such a text is written with an apostrophe before
it, which is taken off again on reading; so nothing that a person typed into a record ever runs.
"""

from __future__ import annotations

import re
from typing import Any

from service.intake.shelf_columns import CellKind, Column

NONE = "(none)"
FORMULA_SIGNS = ("=", "+", "-", "@", "\t", "\r")
_GUARDED = re.compile(r"'(?=[=+\-@\t\r])")
_FLAGS = {"true": True, "yes": True, "y": True, "false": False, "no": False, "n": False}
_PARTS = re.compile(r"(?<!\\)\|")
_WHOLE, _NUMBER = re.compile(r"-?\d{1,9}"), re.compile(r"-?\d{1,9}(\.\d{1,9})?")
_MIDNIGHT = re.compile(r"(\d{4}-\d{2}-\d{2})[ T]00:00:00")


class Unreadable(ValueError):
    """What is written in a cell is not what its column holds; the sentence says what is taken."""


def read_cell(written: str, column: Column) -> Any:
    """The value in a cell, or None where it is empty; Unreadable says what is taken.

    >>> from service.intake.shelf_columns import column
    >>> read_cell("Yes", column("restricted_use")), read_cell("apple | pear", column("sites.crops"))
    (True, ['apple', 'pear'])
    >>> read_cell("'=1+1", column("product_name")), read_cell("(none)", column("ppe"))
    ('=1+1', [])
    """
    text = unguarded(written)
    if not text:
        return None
    return _READ[column.kind](text)


def write_cell(value: Any, column: Column) -> str:
    """A value as its cell holds it.

    >>> from service.intake.shelf_columns import column
    >>> write_cell(["apple", "pear"], column("sites.crops")), write_cell("@sum", column("product_name"))
    ('apple | pear', "'@sum")
    """
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        written = " | ".join(str(one).replace("|", r"\|") for one in value)
        return guarded(written) if value else NONE if column.optional else ""
    return guarded(value) if isinstance(value, str) else str(value)


def guarded(text: str) -> str:
    """A text that a spreadsheet does not take for a formula.

    >>> guarded("=1+1"), guarded("Liberty")
    ("'=1+1", 'Liberty')
    """
    return "'" + text if text.startswith(FORMULA_SIGNS) or _GUARDED.match(text) else text


def unguarded(written: str) -> str:
    """The text of a cell without spaces around it and without the apostrophe of the guard.

    >>> unguarded(" '=1+1 "), unguarded("'Liberty'")
    ('=1+1', "'Liberty'")
    """
    return _GUARDED.sub("", written.strip(), count=1)


def _flag(text: str) -> bool:
    found = _FLAGS.get(text.lower())
    if found is None:
        raise Unreadable("this must be true or false (yes or no)")
    return found


def _whole(text: str) -> int:
    if not _WHOLE.fullmatch(text):
        raise Unreadable("this must be a whole number")
    return int(text)


def _number(text: str) -> float:
    if not _NUMBER.fullmatch(text):
        raise Unreadable("this must be a number such as 48.9")
    return float(text)


def _date(text: str) -> str:
    at_midnight = _MIDNIGHT.fullmatch(text)
    return at_midnight[1] if at_midnight else text


def _list(text: str) -> list[str]:
    if text == NONE:
        return []
    return [part.strip().replace(r"\|", "|") for part in _PARTS.split(text) if part.strip()]


_READ: dict[CellKind, Any] = {
    "text": str, "date": _date, "flag": _flag, "whole": _whole, "number": _number, "list": _list,
}  # fmt: skip
