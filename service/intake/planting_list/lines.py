"""The rows of one table read as lines, one after the other; no more than the first rows are ever held.

The first rows tell what the columns hold and of which crops the list mostly is; all later rows are read by that.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain, islice

from service.domain.planting_list import ReadLine, Skipped, Source, Why, WrittenCell, WrittenRow
from service.intake.planting_list.columns import Columns, columns_of
from service.intake.planting_list.lexicon import Lexicon
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.line import Asked, LineReader
from service.intake.planting_list.naming import Around, Naming
from service.intake.planting_list.phrase import Phrase, read_phrase
from service.intake.planting_list.prose import (
    SIGNED_OFF_LINES,
    asks_for_trees,
    heading_of,
    is_closing,
    items_of,
    may_list,
    set_aside,
)
from service.intake.planting_list.separated import Row
from service.intake.planting_list.tables import Table

_FIRST_ROWS = 1_000
_FIRST_LETTERS = 2_000_000
_REMEMBERED, _SHORT = 32_768, 160
_LISTING, _SHORT_LINES = 0.4, 0.8
_GLUE = " | "


@dataclass(frozen=True, slots=True)
class Opened:
    """A table with its first rows looked at; `source` tells how it was read."""

    source: Source
    rows: Iterator[Row]
    columns: Columns
    mostly: frozenset[str]
    listing: bool
    prose: bool


class RowReader:
    """Reads tables; what it has read once it remembers."""

    def __init__(self, lexicon: Lexicon, limits: ListLimits) -> None:
        self.lexicon, self.limits = lexicon, limits
        self._remembered = lru_cache(maxsize=_REMEMBERED)(self._phrase)
        self.naming = Naming(lexicon)
        self.line = LineReader(lexicon, self.naming, self.phrase, limits)

    def opened(self, table: Table) -> Opened:
        """A table, ready to be read row by row."""
        rows = iter(table.rows)
        first = list(_first(rows))
        cells = [cells for _, cells in first if any(cells)]
        columns = Columns() if table.prose else columns_of(cells, self.phrase)
        source = replace(table.source, headings=columns.headings)
        every = chain(first, rows)
        opened = Opened(source, every, columns, frozenset(), False, table.prose)
        return replace(opened, mostly=self._mostly(first, columns), listing=self._listing(first))

    def read(self, opened: Opened, start: int) -> Iterator[ReadLine | Skipped]:
        """The lines of a table, numbered from `start`, and the rows that are none."""
        return _Reading(self, opened, start).all()

    def phrase(self, text: str) -> Phrase:
        """The phrase of a text; short ones are remembered, since long lists repeat themselves."""
        return self._remembered(text) if len(text) <= _SHORT else self._phrase(text)

    def _phrase(self, text: str) -> Phrase:
        return read_phrase(text[: self.limits.cell_characters], self.lexicon)

    def _mostly(self, rows: list[Row], columns: Columns) -> frozenset[str]:
        """The crops that the list is mostly made of, by the names that leave no doubt."""
        crops: Counter[str] = Counter()
        for _, cells in rows:
            text = columns.cells(cells).get("name", "") if "name" in columns else _GLUE.join(filter(None, cells))
            for called in self.phrase(text).called:
                if len(called.bearers) == 1:
                    crops[self.lexicon.crop_of(called.bearers[0][0])] += 1
        return frozenset(crop for crop, count in crops.items() if count >= 2 and count * 5 >= crops.total())

    def _listing(self, rows: list[Row]) -> bool:
        """Whether the lines of a text are a list, rather than a letter that names a tree."""
        filled = [_GLUE.join(filter(None, cells)) for _, cells in rows if any(cells)]
        asking = sum(asks_for_trees(text, self.phrase(text), listing=False) for text in filled)
        short = sum(map(may_list, filled))
        return bool(filled) and (asking >= _LISTING * len(filled) or short >= _SHORT_LINES * len(filled))


def _first(rows: Iterator[Row]) -> Iterator[Row]:
    """The first rows, as many as may be held."""
    letters = 0
    for row in islice(rows, _FIRST_ROWS):
        yield row
        letters += sum(map(len, row[1]))
        if letters > _FIRST_LETTERS:
            return


class _Reading:
    """One way through a table: what was last a heading, and whether the letter has been signed."""

    def __init__(self, reader: RowReader, opened: Opened, start: int) -> None:
        self.reader, self.opened, self.number = reader, opened, start
        self.heading: frozenset[str] = frozenset()
        self.signed_off = 0
        self.headings_left = 0 if opened.columns.heading is None else opened.columns.heading + 1

    def all(self) -> Iterator[ReadLine | Skipped]:
        """Lines and skipped rows in their order."""
        for number, cells in self.opened.rows:
            if not any(cells):
                continue
            row = self._written(number, cells)
            why = self._skipped(cells)
            if why:
                yield Skipped(row, why)
                continue
            before = self.number
            yield from self._lines(row, cells)
            if self.number == before:
                yield Skipped(row, "comment" if self.opened.prose else "empty_of_trees")

    def _written(self, number: int, cells: list[str]) -> WrittenRow:
        headings, longest = self.opened.columns.headings, self.reader.limits.cell_characters
        written = tuple(
            WrittenCell(cell[:longest], headings[at] if at < len(headings) else "") for at, cell in enumerate(cells)
        )
        return WrittenRow(number, written, self.opened.source.place)

    def _skipped(self, cells: list[str]) -> Why | None:
        """Why a row is no line, without a look at its names."""
        if self.headings_left:
            self.headings_left -= 1
            return "comment" if self.headings_left else "heading"
        filled = [cell for cell in cells if cell]
        if self.opened.columns.headings and tuple(cells) == self.opened.columns.headings:
            return "heading"
        if why := set_aside(filled[0]):
            return why if why == "total" or len(filled) == 1 else None
        return self._heading(filled) or (self._letter(filled[0]) if self.opened.prose else None)

    def _heading(self, filled: list[str]) -> Why | None:
        alone = len(filled) == 1 and not self.opened.prose and len(self.opened.columns.roles) > 1
        heading = heading_of(filled[0], self.reader.lexicon, alone=alone) if len(filled) == 1 else None
        if heading is None:
            return None
        self.heading = heading.crops
        return "crop_heading" if heading.crops else "heading"

    def _letter(self, text: str) -> Why | None:
        """Lines of a letter after it was signed are no lines of the list."""
        if self.signed_off:
            self.signed_off -= 1
            phrase = self.reader.phrase(text)
            if phrase.count is None or not any(called.bearers for called in phrase.called):
                return "comment"
        if is_closing(text):
            self.signed_off = SIGNED_OFF_LINES
            return "comment"
        return None

    def _lines(self, row: WrittenRow, cells: list[str]) -> Iterator[ReadLine]:
        around = Around(heading=self.heading, mostly=self.opened.mostly)
        for asked in self._asked(cells):
            line = self.reader.line.read(asked, row, number=self.number + 1, around=around)
            if line:
                self.number += 1
                yield line

    def _asked(self, cells: list[str]) -> Iterator[Asked]:
        """What a row asks for: once, or of a text that names several trees several times."""
        columns, reader = self.opened.columns, self.reader
        if "name" in columns:
            yield Asked(cells, columns)
            return
        text = _GLUE.join(filter(None, cells))
        if not self.opened.prose:
            yield Asked([text], Columns(("name",)))
            return
        phrase = reader.phrase(text)
        if not asks_for_trees(text, phrase, listing=self.opened.listing):
            return
        items = [text] if phrase.several or phrase.choice else items_of(text, reader.lexicon)
        for item in items:
            yield Asked([item], Columns(("name",)), said=phrase.crops if len(items) > 1 else ())
