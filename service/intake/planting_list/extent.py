"""How much a workbook asks of memory, found by a look through its XML before any table is made of it.

A reader of workbooks makes room for the whole rectangle between the first cell and the last, and copies a text that
many cells share into each of them: one stray cell or one long text would ask for gigabytes. Here nothing is kept but
the corners and the lengths of texts. Every part is looked at as if it were a sheet, whatever it is called.
"""

from __future__ import annotations

import re
import zipfile
from array import array
from collections.abc import Iterator
from xml.parsers import expat

from service.domain.errors import NotUnderstood, TooLarge
from service.intake.planting_list.limits import ListLimits, amount

_BLOCK = 1 << 16
_CELL = re.compile(r"([A-Za-z]{1,3})([0-9]{1,9})\Z")
_MANY = 10**9
_SHARED = "xl/sharedStrings.xml"
_Attributes = dict[str, str]


def check_extent(kind: str, book: zipfile.ZipFile, limits: ListLimits) -> None:
    """Raises TooLarge where a sheet asks for more than the limits, NotUnderstood where the XML is broken."""
    shared = _Shared()
    for name in sorted(book.namelist(), key=lambda name: name != _SHARED):
        if name.endswith((".xml", ".rels")):
            look = _OdsExtent(limits) if kind == "ods" else _XlsxExtent(limits, shared)
            _look_through(_parts(book, name), look, shared if name == _SHARED else None)


def _parts(book: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with book.open(name) as part:
        while block := part.read(_BLOCK):
            yield block


def _look_through(blocks: Iterator[bytes], look: _Extent, shared: _Shared | None) -> None:
    parser = expat.ParserCreate()
    follow: _Extent | _Shared = shared or look
    parser.StartDoctypeDeclHandler = _refuse_entities
    parser.StartElementHandler = follow.start
    parser.EndElementHandler = follow.end
    parser.CharacterDataHandler = follow.letters
    try:
        for block in blocks:
            parser.Parse(block, False)
        parser.Parse(b"", True)
    except (expat.ExpatError, LookupError, ValueError):  # broken XML, or an encoding that there is not
        raise _damaged() from None


def _damaged() -> NotUnderstood:
    return NotUnderstood(("/file", "the workbook is damaged; save it anew as .xlsx"))


def _refuse_entities(*_: object) -> None:
    raise NotUnderstood(("/file", "the workbook declares entities of its own; save it anew as .xlsx"))


class _Shared:
    """The lengths of the texts that cells share."""

    def __init__(self) -> None:
        self.lengths = array("L")
        self.length = 0

    def start(self, name: str, attributes: _Attributes) -> None:
        """A text begins."""
        if name.rpartition(":")[2] == "si":
            self.length = 0

    def end(self, name: str) -> None:
        """A text ends."""
        if name.rpartition(":")[2] == "si":
            self.lengths.append(self.length)

    def letters(self, text: str) -> None:
        """Letters of a text."""
        self.length += len(text)


class _Extent:
    """Counts the rows, columns and letters of sheets while their XML goes by."""

    def __init__(self, limits: ListLimits) -> None:
        self.limits, self.rows, self.columns, self.before, self.written = limits, 0, 0, 0, 0

    def start(self, name: str, attributes: _Attributes) -> None:
        """An element begins."""

    def end(self, name: str) -> None:
        """An element ends."""

    def letters(self, text: str) -> None:
        """Letters between elements."""

    def reach(self, row: int, column: int) -> None:
        """Note a cell that holds something."""
        self.rows, self.columns = max(self.rows, row), max(self.columns, column)
        if self.before + self.rows * self.columns > self.limits.workbook_cells:
            most = f"at most {self.limits.workbook_cells:,} cells are read"
            raise TooLarge(("/file", f"a sheet reaches to row {self.rows:,} and column {self.columns:,}; {most}: delete"
                                     " the empty rows and columns, or send the list as .csv"))  # fmt: skip

    def holds(self, letters: int) -> None:
        """Note a text as long as that in cells."""
        self.written += letters
        if self.written > self.limits.unpacked_bytes:
            most = amount(self.limits.unpacked_bytes)
            raise TooLarge(("/file", f"the cells hold more than {most} of text; send the list as .csv"))


class _XlsxExtent(_Extent):
    """A sheet whose cells name their place, or stand one after the other."""

    def __init__(self, limits: ListLimits, shared: _Shared) -> None:
        super().__init__(limits)
        self.shared, self.row, self.column = shared, 0, 0
        self.index: str | None = None
        self.is_shared = False

    def start(self, name: str, attributes: _Attributes) -> None:
        """Follow rows, cells and values."""
        name = name.rpartition(":")[2]
        if name == "row":
            self.row, self.column = _number(attributes.get("r"), self.row + 1), 0
        elif name == "c":
            self.is_shared = attributes.get("t") == "s"
            self._cell(attributes.get("r"))
        elif name == "v" and self.is_shared:
            self.index = ""

    def end(self, name: str) -> None:
        """A value ends: of a shared text the length is known by its number."""
        if self.index is not None and name.rpartition(":")[2] == "v":
            place = _number(self.index.strip() or None, 0)
            self.holds(self.shared.lengths[place] if place < len(self.shared.lengths) else 0)
            self.index = None

    def letters(self, text: str) -> None:
        """The number of a shared text."""
        if self.index is not None:
            self.index = (self.index + text)[:20]

    def _cell(self, place: str | None) -> None:
        match = _CELL.match(place) if place else None
        if place and not match:
            raise _damaged()
        self.row, self.column = (int(match[2]), _column(match[1])) if match else (self.row, self.column + 1)
        self.reach(self.row, self.column)


class _OdsExtent(_Extent):
    """Sheets whose rows and cells may say that they are repeated; a reader takes all of them at once."""

    def __init__(self, limits: ListLimits) -> None:
        super().__init__(limits)
        self.row = self.column = self.row_times = self.cell_times = self.row_letters = 0
        self.filled = False

    def start(self, name: str, attributes: _Attributes) -> None:
        """Follow tables, rows, cells and what stands in them."""
        if name == "table:table":
            self.before += self.rows * self.columns
            self.row = self.rows = self.columns = 0
        elif name == "table:table-row":
            self.row_times = _number(attributes.get("table:number-rows-repeated"), 1)
            self.column, self.row_letters, self.filled = 0, 0, False
        elif name in ("table:table-cell", "table:covered-table-cell"):
            self.cell_times = _number(attributes.get("table:number-columns-repeated"), 1)
            self.column += self.cell_times
            self.row_letters += self.cell_times * len(attributes.get("office:string-value", ""))
            if "office:value-type" in attributes or "table:formula" in attributes:
                self._fill()
        elif name.startswith("text:"):
            self._fill()

    def end(self, name: str) -> None:
        """A row that holds something is as high as it is repeated."""
        if name == "table:table-row":
            self.row += self.row_times
            if self.filled:
                self.reach(self.row, self.columns)
                self.holds(self.row_letters * self.row_times)

    def letters(self, text: str) -> None:
        """Letters of a cell, in each of its repetitions."""
        self.row_letters += len(text) * self.cell_times

    def _fill(self) -> None:
        self.filled = True
        self.reach(self.row + 1, self.column)


def _number(told: str | None, untold: int) -> int:
    """A number in an attribute; what is no plain number is taken for a very great one."""
    if told is None:
        return untold
    return int(told) if told.isascii() and told.isdecimal() and len(told) < 9 else _MANY


def _column(letters: str) -> int:
    """The number of a column.

    >>> _column("A"), _column("XFD")
    (1, 16384)
    """
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number
