"""Lists in pages. The cursor says after which id to go on; clients pass it back and do not look inside."""

from __future__ import annotations

import base64
import binascii
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

from service.api.fields import AskedInQuery, text, whole
from service.domain.errors import NotUnderstood

T = TypeVar("T")
MOST = 200
USUAL = 50
MARK = b"after:"


class PageAsked(AskedInQuery):
    """Which page of a list."""

    limit = whole("How many entries at the most; 50 when left out.", unit="count", example=20, low=1, high=MOST)
    cursor = text(
        "The next_cursor of the page before.",
        example="YWZ0ZXI6YXBwbGU",
        longest=400,
        pattern="[A-Za-z0-9_-]+",
        wants="This is not a cursor that this service gave.",
    )


def page(
    entries: Sequence[T], asked: dict[str, Any], *, key: Callable[[T], str], show: Callable[[T], dict[str, Any]]
) -> dict[str, Any]:
    """One page of entries in the order of their keys, and the cursor of the next; None after the last."""
    limit = asked.get("limit") or USUAL
    after = after_of(asked["cursor"]) if asked.get("cursor") else ""
    rest = sorted((entry for entry in entries if key(entry) > after), key=key)
    shown = rest[:limit]
    more = cursor_after(key(shown[-1])) if len(rest) > limit else None
    return {"items": [show(entry) for entry in shown], "next_cursor": more}


def cursor_after(key: str) -> str:
    """The cursor for what comes after a key.

    >>> cursor_after("apple")
    'YWZ0ZXI6YXBwbGU'
    """
    return base64.urlsafe_b64encode(MARK + key.encode()).decode().rstrip("=")


def after_of(cursor: str) -> str:
    """The key in a cursor.

    >>> after_of(cursor_after("apple"))
    'apple'
    """
    try:
        inside = base64.urlsafe_b64decode(cursor + "=" * (-len(cursor) % 4))
        if not inside.startswith(MARK):
            raise ValueError
        return inside.removeprefix(MARK).decode()
    except (ValueError, binascii.Error):
        raise NotUnderstood(("/cursor", "This is not a cursor that this service gave.")) from None
