"""The products in the rows of a table, each with the places of its values, so that a fault names row and column.

The first row names the columns. A product takes one row for each printed crop name; all carry its `id`, and what
belongs to the product is written in the first of them and may be left out or repeated in the others.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Any

from service.domain.errors import NotUnderstood
from service.intake.shelf_cells import Unreadable, read_cell
from service.intake.shelf_columns import SITES, Column, column, fields

ID = "id"
MOST_ROWS, MOST_PRODUCTS = 20_000, 2_000
Row = tuple[int, Sequence[str]]
Fault = tuple[str, str]


@dataclass(slots=True)
class TableProduct:
    """The plain values of one product, its rows, and where each value stood: the pointer of a value to row and column.

    A value that no cell holds is at the first row, in the column of its field.
    """

    plain: dict[str, Any]
    row: int
    site_rows: list[int] = field(default_factory=list)
    cells: dict[str, tuple[int, str]] = field(default_factory=dict)

    def place_of(self, pointer: str) -> tuple[int, str]:
        """The row and the column of a value by its pointer into the plain values."""
        steps = pointer.split("/")[1:]
        for end in range(len(steps), 0, -1):
            found = self.cells.get("/" + "/".join(steps[:end]))
            if found is not None:
                return found
        if steps[:1] == [SITES] and len(steps) > 2 and steps[1].isdigit():
            return self.site_rows[int(steps[1])], ".".join((SITES, *steps[2:3]))
        return self.row, ".".join(str(int(step) + 1) if step.isdigit() else step for step in steps)


def at_cell(row: int, name: str, says: str) -> Fault:
    """A fault at a cell: its pointer, and a sentence that names row and column as the spreadsheet shows them."""
    told = says[:1].lower() + says[1:]
    return f"/{row}/{name.replace('~', '~0').replace('/', '~1')}", f"Row {row}, column {name}: {told}"


def read_table(rows: Iterable[Row]) -> tuple[list[TableProduct], list[Fault]]:
    """The products of a table in the order of their first rows, and a fault for every cell that cannot be read.

    Raises NotUnderstood where the columns themselves cannot be understood.
    """
    filled = ((number, cells) for number, cells in rows if any(cell.strip() for cell in cells))
    first = next(filled, None)
    if first is None:
        raise NotUnderstood(("", "the table is empty; its first row names the columns"))
    columns = _header(*first)
    reader = _Reader(columns)
    for number, cells in filled:
        reader.take(number, cells)
    return list(reader.products.values()), reader.faults


def _header(number: int, cells: Sequence[str]) -> list[Column | None]:
    columns = [column(cell.strip()) if cell.strip() else None for cell in cells]
    unknown = [cell.strip() for cell, found in zip(cells, columns, strict=True) if cell.strip() and found is None]
    if ID not in {found.name for found in columns if found}:
        seen = ", ".join(f"“{cell[:40]}”" for cell in unknown[:3])
        hint = f"; it holds {seen}" if seen else ""
        raise NotUnderstood(("", f"row {number} must name the columns, with “id” among them{hint}"))
    faults = [at_cell(number, cell[:80], f"there is no such column{_nearest(cell)}") for cell in unknown]
    names = [found.name for found in columns if found]
    twice = [name for name in dict.fromkeys(names) if names.count(name) > 1]
    faults += [at_cell(number, name, "this column stands twice") for name in twice]
    if faults:
        raise NotUnderstood(*faults)
    return columns


def _nearest(name: str) -> str:
    near = difflib.get_close_matches(name, fields(), n=1)
    return f"; did you mean “{near[0]}”?" if near else ""


class _Reader:
    """Takes rows one by one and gathers products and faults."""

    def __init__(self, columns: Sequence[Column | None]) -> None:
        self.columns, self.faults, self.rows = columns, list[Fault](), 0
        self.products: dict[str, TableProduct] = {}

    def take(self, number: int, cells: Sequence[str]) -> None:
        """Read one row into its product."""
        self.rows += 1
        if self.rows > MOST_ROWS:
            raise NotUnderstood(("", f"the table has more than {MOST_ROWS:,} rows; give them in parts"))
        values = dict(self._values(number, cells))
        key = next((value for one, value in values.items() if one.name == ID), None)
        if key is None:
            self.faults.append(at_cell(number, ID, "this is needed in every row"))
            return
        product = self.products.setdefault(key, TableProduct({}, number))
        if len(self.products) > MOST_PRODUCTS:
            raise NotUnderstood(("", f"the table has more than {MOST_PRODUCTS:,} products; give them in parts"))
        self._put(product, number, {one: value for one, value in values.items() if not one.of_site})
        _put_site(product, number, {one: value for one, value in values.items() if one.of_site})

    def _values(self, number: int, cells: Sequence[str]) -> Iterator[tuple[Column, Any]]:
        for one, cell in zip(chain(self.columns, [None] * len(cells)), cells, strict=False):
            if one is None:
                if cell.strip():
                    self.faults.append(at_cell(number, "without a name", "this cell stands under no column"))
                continue
            try:
                value = read_cell(cell, one)
            except Unreadable as fault:
                self.faults.append(at_cell(number, one.name, str(fault)))
                continue
            if value is not None:
                yield one, value

    def _put(self, product: TableProduct, number: int, values: dict[Column, Any]) -> None:
        for one, value in values.items():
            pointer = _pointer(one)
            place = _place(product.plain, one)
            if pointer in product.cells and place.get(one.path[-1]) != value:
                first = product.cells[pointer][0]
                self.faults.append(at_cell(number, one.name, f"this is another value than in row {first}"))
                continue
            place[one.path[-1]] = value
            product.cells.setdefault(pointer, (number, one.name))


def _put_site(product: TableProduct, number: int, values: dict[Column, Any]) -> None:
    if not values:
        return
    sites = product.plain.setdefault(SITES, [])
    for one in values:
        product.cells[f"/{SITES}/{len(sites)}/{one.path[-1]}"] = (number, one.name)
    sites.append({one.path[-1]: value for one, value in values.items()})
    product.site_rows.append(number)


def _pointer(one: Column) -> str:
    listed = (*one.listed, str((one.place or 1) - 1)) if one.listed else ()
    return "/" + "/".join((*listed, *one.path))


def _place(plain: dict[str, Any], one: Column) -> dict[str, Any]:
    """The mapping in which a column's value stands, made where it is not there yet."""
    place: Any = plain
    for step in one.listed[:-1]:
        place = place.setdefault(step, {})
    if one.listed:
        entries = place.setdefault(one.listed[-1], [])
        entries.extend({} for _ in range((one.place or 1) - len(entries)))
        place = entries[(one.place or 1) - 1]
    for step in one.path[:-1]:
        place = place.setdefault(step, {})
    return place  # type: ignore[no-any-return]
