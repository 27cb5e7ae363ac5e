"""The stock in a table: one row for each kind of tree, under a first row that names the columns."""

from __future__ import annotations

import csv
import difflib
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.domain.errors import NotUnderstood
from service.domain.store import StockItem
from service.intake.shelf_cells import guarded, unguarded
from service.intake.shelf_table import Fault, Row, at_cell

MOST_ENTRIES = 20_000
_WHOLE, _NUMBER = re.compile(r"-?\d{1,9}"), re.compile(r"-?\d{1,9}(\.\d{1,9})?")


def _whole(text: str) -> int:
    if not _WHOLE.fullmatch(text):
        raise ValueError("this must be a whole number")
    return int(text)


def _price(text: str) -> float:
    if not _NUMBER.fullmatch(text):
        raise ValueError("this must be a number such as 39.90, without a currency sign")
    return float(text)


COLUMNS: Mapping[str, Callable[[str], Any]] = {
    "id": str, "crop": str, "cultivar": str, "rootstock": str, "quantity": _whole, "form": str, "size": str,
    "price": _price, "currency": str.upper,
}  # fmt: skip
_NEEDED = ("id", "cultivar", "quantity")


@dataclass(frozen=True, slots=True)
class TableEntry:
    """The plain values of one row."""

    row: int
    plain: dict[str, Any]


def read_stock_table(rows: Iterable[Row]) -> tuple[list[TableEntry], list[Fault]]:
    """The entries of a table, and a fault for every cell that cannot be read.

    Raises NotUnderstood where the columns themselves cannot be understood.
    """
    filled = ((number, cells) for number, cells in rows if any(cell.strip() for cell in cells))
    first = next(filled, None)
    if first is None:
        raise NotUnderstood(("", "the table is empty; its first row names the columns"))
    columns = _header(*first)
    entries: list[TableEntry] = []
    faults: list[Fault] = []
    for number, cells in filled:
        if len(entries) >= MOST_ENTRIES:
            raise NotUnderstood(("", f"the table has more than {MOST_ENTRIES:,} rows; give them in parts"))
        entries.append(TableEntry(number, _values(number, columns, cells, faults)))
    return entries, faults


def stock_csv(items: Iterable[StockItem]) -> str:
    """The stock as a CSV file; reading it gives the same stock. Texts that look like formulas are guarded."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    names = [name for name in COLUMNS if name != "crop"]
    writer.writerow(names)
    for item in items:
        values = (getattr(item, name) for name in names)
        writer.writerow(["" if value is None else guarded(str(value)) for value in values])
    return out.getvalue()


def _header(number: int, cells: Sequence[str]) -> list[str]:
    names = [re.sub(r"[\s-]+", "_", cell.strip().lower()) for cell in cells]
    lacking = [name for name in _NEEDED if name not in names]
    if lacking:
        raise NotUnderstood(("", f"row {number} must name the columns; {' and '.join(lacking)} must be among them"))
    faults = [
        at_cell(number, cell.strip()[:80], f"there is no such column{_nearest(name)}")
        for name, cell in zip(names, cells, strict=True)
        if name and name not in COLUMNS
    ]
    faults += [at_cell(number, name, "this column stands twice") for name in COLUMNS if names.count(name) > 1]
    if faults:
        raise NotUnderstood(*faults)
    return names


def _nearest(name: str) -> str:
    near = difflib.get_close_matches(name, COLUMNS, n=1)
    return f"; did you mean “{near[0]}”?" if near else f"; columns are {', '.join(COLUMNS)}"


def _values(number: int, columns: Sequence[str], cells: Sequence[str], faults: list[Fault]) -> dict[str, Any]:
    values: dict[str, Any] = {}
    for place, cell in enumerate(cells):
        name, text = columns[place] if place < len(columns) else "", unguarded(cell)
        if not text:
            continue
        if not name:
            faults.append(at_cell(number, "without a name", "this cell stands under no column"))
            continue
        try:
            values[name] = COLUMNS[name](text)
        except ValueError as fault:
            faults.append(at_cell(number, name, str(fault)))
    return values
