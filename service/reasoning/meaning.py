"""What each test of the rule language means. The one place: both matchers take it from here.

Unknown (None) satisfies no test but `known: false`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Mapping
from typing import Any

from service.reasoning.rule import Op, Test
from service.reasoning.vocabulary import FactType

_HOLDS: Mapping[Op, Callable[[Any, Any], bool]] = {
    "is": lambda value, wanted: value == wanted,
    "one_of": lambda value, wanted: value in wanted,
    "none_of": lambda value, wanted: value not in wanted,
    "at_least": lambda value, wanted: value >= wanted,
    "above": lambda value, wanted: value > wanted,
    "at_most": lambda value, wanted: value <= wanted,
    "below": lambda value, wanted: value < wanted,
    "between": lambda value, wanted: wanted[0] <= value <= wanted[1],
    "known": lambda value, wanted: wanted,
    "has": lambda value, wanted: wanted in value,
    "has_any": lambda value, wanted: any(item in value for item in wanted),
    "has_none": lambda value, wanted: not any(item in value for item in wanted),
}

OPS_OF: Mapping[FactType, tuple[Op, ...]] = {
    "choice": ("is", "one_of", "none_of", "known"),
    "number": ("is", "one_of", "none_of", "at_least", "above", "at_most", "below", "between", "known"),
    "flag": ("is", "known"),
    "list": ("has", "has_any", "has_none", "known"),
    "name": ("is", "one_of", "none_of", "known"),
}


def holds(test: Test, value: Any) -> bool:
    """Whether a test holds for the value of its fact.

    >>> holds(Test("tree.spacing_ft", "between", (8, 12)), 12)
    True
    >>> holds(Test("tree.spacing_ft", "below", 8), None), holds(Test("tree.spacing_ft", "known", False), None)
    (False, True)
    """
    if value is None:
        return not test.needs_known
    return _HOLDS[test.op](value, test.value)


def same_text(text: str) -> str:
    """A text in the one form in which equal letters are equal code points (Unicode NFC).

    >>> same_text("e\\u0301") == "\\u00e9"
    True
    """
    return text if text.isascii() else unicodedata.normalize("NFC", text)
