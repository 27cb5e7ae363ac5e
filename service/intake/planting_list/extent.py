"""How far the cells of a workbook reach, found by a look through its XML before any table is made in memory.

A reader of workbooks makes room for the whole rectangle between the first cell and the last: one stray cell at the end
of a sheet would ask for gigabytes. Here nothing is kept but the corners.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable, Iterator
from xml.parsers import expat

from service.domain.errors import NotUnderstood, TooLarge
from service.intake.planting_list.limits import ListLimits

_BLOCK = 1 << 16
_CELL = re.compile(r"([A-Z]{1,3})([0-9]{1,7})\Z")
_Attributes = dict[str, str]


def check_extent(kind: str, book: zipfile.ZipFile, limits: ListLimits) -> None:
    """Raises TooLarge where a sheet reaches further than the limits, NotUnderstood where the XML is broken."""
    for name in book.namelist():
        if kind == "ods" and name == "content.xml":
            _check(_parts(book, name), _OdsCorners(limits))
        elif name.startswith("xl/worksheets/"):
            _check(_parts(book, name), _XlsxCorners(limits))
        elif name.endswith((".xml", ".rels")):
            _check(_parts(book, name), None)


def _parts(book: zipfile.ZipFile, name: str) -> Iterator[bytes]:
    with book.open(name) as part:
        while block := part.read(_BLOCK):
            yield block


def _check(blocks: Iterator[bytes], corners: _Corners | None) -> None:
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse_entities
    if corners:
        parser.StartElementHandler = corners.start
        parser.EndElementHandler = corners.end
    try:
        for block in blocks:
            parser.Parse(block, False)
        parser.Parse(b"", True)
    except expat.ExpatError:
        raise NotUnderstood(("/file", "the workbook is damaged; save it anew as .xlsx")) from None


def _refuse_entities(*_: object) -> None:
    raise NotUnderstood(("/file", "the workbook declares entities of its own; save it anew as .xlsx"))


class _Corners:
    """Counts the rows and columns of a sheet; `start` and `end` follow the elements of its XML."""

    start: Callable[[str, _Attributes], None]
    end: Callable[[str], None]

    def __init__(self, limits: ListLimits) -> None:
        self.limits, self.rows, self.columns = limits, 0, 0

    def reach(self, row: int, column: int) -> None:
        """Note a cell that holds something."""
        self.rows, self.columns = max(self.rows, row), max(self.columns, column)
        if self.rows * self.columns > self.limits.workbook_cells:
            raise TooLarge(
                (
                    "/file",
                    f"a sheet reaches to row {self.rows:,} and column {self.columns:,}; at most"
                    f" {self.limits.workbook_cells:,} cells are read: delete the empty rows and columns, or send the"
                    " list as .csv",
                )
            )


class _XlsxCorners(_Corners):
    """The corners of a sheet whose cells name their place, or stand one after the other."""

    def __init__(self, limits: ListLimits) -> None:
        super().__init__(limits)
        self.row = self.column = 0

    def start(self, name: str, attributes: _Attributes) -> None:
        """Follow rows and cells."""
        name = name.rpartition(":")[2]
        if name == "row":
            told = attributes.get("r", "")
            self.row, self.column = int(told) if told.isdecimal() and len(told) < 9 else self.row + 1, 0
        elif name == "c":
            match = _CELL.match(attributes.get("r", ""))
            self.row, self.column = (int(match[2]), _column(match[1])) if match else (self.row, self.column + 1)
            self.reach(self.row, self.column)

    def end(self, name: str) -> None:
        """Nothing ends a cell."""


class _OdsCorners(_Corners):
    """The corners of a sheet whose rows and cells may say that they are repeated."""

    def __init__(self, limits: ListLimits) -> None:
        super().__init__(limits)
        self.row = self.column = self.repeated = self.waiting = 0
        self.filled = False

    def start(self, name: str, attributes: _Attributes) -> None:
        """Follow tables, rows, cells and what stands in them."""
        if name == "table:table":
            self.row = self.rows = self.columns = 0
        elif name == "table:table-row":
            self.repeated, self.column, self.filled = _times(attributes, "table:number-rows-repeated"), 0, False
        elif name in ("table:table-cell", "table:covered-table-cell"):
            self.column += _times(attributes, "table:number-columns-repeated")
            if "office:value-type" in attributes or "table:formula" in attributes:
                self._fill()
        elif name.startswith("text:"):
            self._fill()

    def end(self, name: str) -> None:
        """A row that holds something is as high as it is repeated."""
        if name == "table:table-row":
            self.row += self.repeated
            if self.filled:
                self.reach(self.row, self.columns)

    def _fill(self) -> None:
        self.filled = True
        self.reach(self.row + 1, self.column)


def _times(attributes: _Attributes, name: str) -> int:
    told = attributes.get(name, "1")
    return int(told) if told.isdecimal() and len(told) < 9 else 1


def _column(letters: str) -> int:
    """The number of a column.

    >>> _column("A"), _column("XFD")
    (1, 16384)
    """
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
