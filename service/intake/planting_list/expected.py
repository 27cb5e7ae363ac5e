"""About how many lines a list has, before it is read: enough for a bar that shows how far a check is."""

from __future__ import annotations

from typing import BinaryIO

from service.domain.errors import NotUnderstood
from service.intake.planting_list.sniff import HEAD_BYTES, sort_of

_AT_ONCE = 1024 * 1024


def lines_expected(content: BinaryIO) -> int | None:
    """The lines of a text from here to its end; None for a workbook, a mail or a page, which only reading tells.

    >>> import io
    >>> lines_expected(io.BytesIO(b"Liberty, 2" + bytes([10]) + b"Gala, 1"))
    2
    """
    start = content.tell()
    try:
        if sort_of(content.read(HEAD_BYTES)) != "text":
            return None
    except NotUnderstood:
        return None
    finally:
        content.seek(start)
    lines, last = 0, b""
    while piece := content.read(_AT_ONCE):
        lines, last = lines + piece.count(b"\n"), piece[-1:]
    content.seek(start)
    return lines + (last not in (b"", b"\n"))
