"""Columns in text: which mark stands between them, and the rows, one after the other.

A quote that is never closed costs its own row and no more; a row is never longer than the limits.
"""

from __future__ import annotations

import csv
import re
from collections import Counter, deque
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

Row = tuple[int, list[str]]
_MARKS = ("\t", ";", "|", ",")
_LOOKED_AT = 200
_QUOTED_LINES = 20
_INCHES = re.compile(r"(?<=\d)\"(?!\"|\s*(?:[,;\t|]|$))")
_QUOTE_OPENS = re.compile(r"(^ ?|[,;\t|] ?)\"")


def separator_of(lines: Sequence[str]) -> str | None:
    """The mark between the columns, or None where the lines are no columns.

    >>> separator_of(["Anzahl;Sorte;Preis", "2;Liberty;39,50", "1;Enterprise;41,00"])
    ';'
    >>> separator_of(["2 Liberty, please", "and one Enterprise"]) is None
    True
    """
    filled = [line for line in lines if line.strip()][:_LOOKED_AT]
    if filled and (told := _told(filled[0])):
        return told
    scores = [(_steadiness(filled, mark), -place, mark) for place, mark in enumerate(_MARKS)]
    best = max(scores)
    return best[2] if best[0] > 0 else None


def split_rows(lines: Iterable[str], separator: str, *, columns: int) -> Iterator[Row]:
    """The rows of lines; cells above `columns` are left out."""
    rows = csv.reader(_records(lines), delimiter=separator, skipinitialspace=True)
    number = 0
    while True:
        try:
            cells = next(rows)
        except StopIteration:
            return
        except csv.Error:
            cells = []
        number += 1
        if number == 1 and len(cells) <= 2 and _told("".join((cells or [""])[0:1]) + separator):
            continue
        yield number, cells[:columns]


def _told(line: str) -> str | None:
    """The mark that a first line "sep=;" names."""
    bare = line.strip().strip('"')
    return bare[4] if len(bare) >= 5 and bare[:4].lower() == "sep=" and bare[4] in _MARKS else None


def _steadiness(lines: Sequence[str], mark: str) -> float:
    """How steadily a mark cuts the lines into columns: 0 where it does not."""
    if not lines or not any(mark in line for line in lines):
        return 0.0
    whole = (line if line.endswith("\n") else line + "\n" for line in lines)
    widths = [len(cells) for _, cells in split_rows(whole, mark, columns=99) if cells]
    counts = Counter(widths)
    usual, times = max(((count, times) for count, times in counts.items() if count > 1), default=(1, 0),
                       key=lambda one: (one[1], one[0]))  # fmt: skip
    share = times / max(1, len(widths))
    least = 0.8 if mark == "," else 0.5
    if share < least or (len(lines) == 1 and (mark == "," or usual < 3)):
        return 0.0
    return share


def _records(lines: Iterable[str]) -> Iterator[str]:
    """Lines joined while a quote is open, for a while; a quote that stays open is taken as the sign of inches."""
    source, ahead = iter(lines), deque[str]()
    while (line := ahead.popleft() if ahead else next(source, None)) is not None:
        if line.count('"') % 2 == 0:
            yield line.replace("\0", "")
            continue
        inches = _INCHES.sub("”", line)
        if inches != line and inches.count('"') % 2 == 0:
            yield inches.replace("\0", "")
            continue
        ahead.extend(islice(source, max(0, _QUOTED_LINES - len(ahead))))
        end = next((place for place, one in enumerate(ahead) if one.count('"') % 2), None)
        if end is None or not _opens_a_cell(line):
            yield _as_inches(line).replace("\0", "")
        else:
            yield "".join((line, *(ahead.popleft() for _ in range(end + 1)))).replace("\0", "")


def _as_inches(line: str) -> str:
    """The line without quotes at the beginning of cells; all others are signs of inches."""
    return _QUOTE_OPENS.sub(r"\1", line).replace('"', "”")


def _opens_a_cell(line: str) -> bool:
    """Whether the last quote of a line opens a cell, rather than standing for inches."""
    before = line[: line.rindex('"')].rstrip(" ")
    return not before or before[-1] in ",;\t|"
