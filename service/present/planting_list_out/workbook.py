"""A checked list as a workbook: the customer's own rows as they were written, and our columns beside them.

Each file, sheet or attachment that rows came from is a sheet; rows that are no lines stand where they stood. A summary
comes first, the mended list last. Rows are written as they come, so that a list of a million lines needs little memory.

Nothing that somebody wrote runs: every cell is written as text, and what begins like a formula carries the mark by
which a spreadsheet keeps it text, also when the cell is edited.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, groupby, islice
from typing import Any, BinaryIO

from xlsxwriter import Workbook
from xlsxwriter.worksheet import Worksheet

from service.domain.units import Language
from service.present.planting_list_out.columns import OUR_COLUMNS, Cell
from service.present.planting_list_out.report import ListReport
from service.present.planting_list_out.sheet_cells import Looks
from service.present.planting_list_out.sheet_names import SheetNames
from service.present.planting_list_out.summary_sheet import write_mended, write_summary
from service.present.planting_list_out.words import SKIPPED, said

MOST_ROWS = 1_048_575  # below our headings
_LOOKED_AT = 1_000
_WIDEST = 32
Told = Mapping[str, Any]
Row = Mapping[str, Any]


def write_workbook(told: Told, lines: Iterable[Told], *, report: ListReport, out: BinaryIO) -> None:
    """Write the workbook of a told list into a file that can be written anywhere in."""
    options = {"constant_memory": True, "strings_to_formulas": False, "strings_to_urls": False, "in_memory": False}
    book = Workbook(out, options)
    writer = _Writer(book, told["answer"])
    write_summary(book.add_worksheet(writer.names.take(said("s_summary", writer.language))), report, writer.looks)
    writer.lists(lines)
    if (told["answer"]["repair"] or {}).get("found"):
        sheet = book.add_worksheet(writer.names.take(said("s_mended", writer.language)))
        write_mended(sheet, told["answer"]["repair"], writer.language, looks=writer.looks)
    book.close()


class _Writer:
    def __init__(self, book: Workbook, answer: Told) -> None:
        self.book, self.answer, self.looks, self.names = book, answer, Looks(book), SheetNames()
        self.language: Language = answer["language"]
        self.sources = {_place(source): number for number, source in enumerate(answer["read"]["sources"])}

    def lists(self, lines: Iterable[Told]) -> None:
        """A sheet for each place that rows came from."""
        skipped = sorted(self.answer["read"]["skipped"], key=self.order)
        rows = heapq.merge(skipped, lines, key=self.order)
        for place, of_place in groupby(rows, key=_place):
            self.sheet(place, of_place)

    def order(self, row: Row) -> tuple[int, int]:
        """Where a row stands among all."""
        return self.sources.get(_place(row), len(self.sources)), row["row"]

    def sheet(self, place: tuple[str | None, ...], rows: Iterator[Row]) -> None:
        """The rows of one place, on more than one sheet where they are more than a sheet holds."""
        headings = self.headings(place)
        first = list(islice(rows, _LOOKED_AT))
        width = max(1, len(headings), *(len(row["cells"]) for row in first))
        if headings and first[0]["cells"] == headings:
            del first[0]  # they stand in our first row
        left = chain(first, rows)
        for row in left:
            name = self.names.take(_named(place) or self.said("s_list"))
            self.part(self.book.add_worksheet(name), chain([row], islice(left, MOST_ROWS - 1)), headings, width=width)

    def part(self, sheet: Worksheet, rows: Iterable[Row], headings: Sequence[str], *, width: int) -> None:
        """So many rows as go on a sheet, theirs on the left and ours on the right."""
        self.begin(sheet, headings, width)
        number = 0
        for number, row in enumerate(rows, 1):
            self.row(sheet, number, row, width=width)
        sheet.autofilter(0, 0, number, width + len(OUR_COLUMNS) - 1)
        sheet.ignore_errors({"number_stored_as_text": f"A1:{_letter(width)}{number + 1}"})

    def headings(self, place: tuple[str | None, ...]) -> list[str]:
        """The headings as the customer wrote them; none where there are none."""
        number = self.sources.get(place)
        return [] if number is None else list(self.answer["read"]["sources"][number]["headings"])

    def begin(self, sheet: Worksheet, headings: Sequence[str], width: int) -> None:
        """Widths and the first row; both must come before the rows."""
        sheet.set_column(0, width - 1, min(_WIDEST, 14 if width > 1 else _WIDEST))
        for place, column in enumerate(OUR_COLUMNS):
            sheet.set_column(width + place, width + place, column.width)
        for place in range(width):
            own = headings[place] if place < len(headings) else ""
            self.looks.text(sheet, (0, place), own or self.said("c_cell", number=place + 1), look="theirs")
        for place, column in enumerate(OUR_COLUMNS):
            self.looks.text(sheet, (0, width + place), self.said(column.heading), look="ours")
        sheet.freeze_panes(1, 0)

    def row(self, sheet: Worksheet, number: int, row: Row, *, width: int) -> None:
        """One row: as it was written, and what we say to it."""
        for place, cell in enumerate(_fitted(row["cells"], width)):
            if cell:
                self.looks.text(sheet, (number, place), cell, look="written")
        if "why" in row:
            self.looks.text(sheet, (number, width), SKIPPED[row["why"]][self.language], look="skipped")
            return
        for place, column in enumerate(OUR_COLUMNS):
            value: Cell = column.value(row, self.language)
            look = row["verdict"] if column.heading == "c_verdict" else "said"
            if isinstance(value, str):
                self.looks.text(sheet, (number, width + place), value, look=look)
            elif value is not None:
                self.looks.number(sheet, (number, width + place), value)

    def said(self, key: str, **values: object) -> str:
        return said(key, self.language, **values)


def _place(row: Row) -> tuple[str | None, ...]:
    return row["file"], row["sheet"], row["attachment"]


def _named(place: tuple[str | None, ...]) -> str | None:
    """What a place is called: a sheet by its name, else an attachment, else the file."""
    file, sheet, attachment = place
    return sheet or attachment or file


def _fitted(cells: Sequence[str], width: int) -> list[str]:
    """Cells in so many columns; what goes beyond stands in the last one."""
    if len(cells) > width:
        return [*cells[: width - 1], " | ".join(cells[width - 1 :])]
    return [*cells, *[""] * (width - len(cells))]


def _letter(column: int) -> str:
    """The letters of a column, counted from 1.

    >>> _letter(1), _letter(26), _letter(28)
    ('A', 'Z', 'AB')
    """
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
