"""The letters of a text file: by its byte order mark, as UTF-8 where it is that throughout, else by likelihood."""

from __future__ import annotations

import codecs
import io
from collections.abc import Iterator
from contextlib import suppress
from typing import BinaryIO

from charset_normalizer import from_bytes

_BLOCK = 1 << 16
LONGEST_LINE = 1 << 15
_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_LIKELY = ["cp1252", "mac_roman", "cp850"]
_POSSIBLE = [*_LIKELY, "cp1250", "cp1251", "cp1253", "cp1254", "gb18030", "big5", "cp932", "euc_kr"]
_LETTERS = frozenset("áéíóúüñçàèìòùâêîôûäößÁÉÍÓÚÜÑÇÀÈÉÄÖ'’‘“”–—·×®™°ºª¿¡€½¼¾")


def encoding_of(file: BinaryIO) -> str:
    """The encoding of a file, which is left at its beginning."""
    head = file.read(_BLOCK)
    try:
        return _by_mark(head) or _by_zeros(head) or ("utf-8" if _is_utf8(head, file) else _likeliest(file))
    finally:
        file.seek(0)


def lines_of(file: BinaryIO, encoding: str) -> Iterator[str]:
    """The lines of a file, read as they are needed; of a line longer than any row only the beginning.

    Bytes that make no letter become U+FFFD. The file is left open; it belongs to whoever opened it.
    """
    text = io.TextIOWrapper(file, encoding=encoding, errors="replace", newline=None)
    try:
        while line := text.readline(LONGEST_LINE):
            yield line
            while not line.endswith("\n") and (line := text.readline(LONGEST_LINE)):
                pass
    finally:
        with suppress(ValueError):  # the file may be closed by now
            text.detach()


def text_from(data: bytes, *, said: str | None = None) -> str:
    """Bytes as text; `said` is the encoding that a mail names, believed only where it fits."""
    if said:
        try:
            return data.decode(said)
        except (LookupError, ValueError):
            pass
    return data.decode(encoding_of(io.BytesIO(data)), errors="replace")


def _by_mark(head: bytes) -> str | None:
    return next((name for mark, name in _MARKS if head.startswith(mark)), None)


def _by_zeros(head: bytes) -> str | None:
    if head.count(0) * 4 < len(head):
        return None
    return "utf-16-le" if head[1::2].count(0) > head[::2].count(0) else "utf-16-be"


def _is_utf8(head: bytes, file: BinaryIO) -> bool:
    reader, block = codecs.getincrementaldecoder("utf-8")(), head
    try:
        while block:
            reader.decode(block)
            block = file.read(_BLOCK)
        reader.decode(b"", final=True)
    except UnicodeDecodeError:
        return False
    return True


def _likeliest(file: BinaryIO) -> str:
    """The likeliest eight-bit encoding of the lines that hold more than ASCII."""
    file.seek(0)
    telling = b"\n".join(line for line in file.read(1 << 20).splitlines() if not line.isascii())[:_BLOCK]
    shares = [(_share(telling, name), -place, name) for place, name in enumerate(_LIKELY)]
    if max(shares)[0] >= 0.5:
        return max(shares)[2]
    found = from_bytes(telling, cp_isolation=_POSSIBLE).best()
    return found.encoding if found else _LIKELY[0]


def _share(data: bytes, encoding: str) -> float:
    """How much of what is not ASCII becomes letters that lists are written with, or, at half the weight, marks."""
    other = [letter for letter in data.decode(encoding, errors="replace") if not letter.isascii()]
    weights = (1.0 if letter.isalpha() else 0.5 for letter in other if letter in _LETTERS)
    return sum(weights) / len(other) if other else 0.0
