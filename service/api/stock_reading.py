"""The entries of a file, held to the schema of a single one; a fault in a table is told with its row and column."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import marshmallow as ma

from service.api.pointers import faults_of
from service.api.stock_told import StockEntryAsked
from service.domain.errors import NotUnderstood
from service.domain.store import StockItem
from service.intake.shelf_table import Fault, Row, at_cell
from service.intake.stock_names import StockNames
from service.intake.stock_table import TableEntry, read_stock_table

MOST_FAULTS = 1000


def stock_in_json(entries: Sequence[Mapping[str, Any]], names: StockNames) -> list[StockItem]:
    """The entries of checked JSON objects, each with an id of its own."""
    items: list[StockItem] = []
    faults: list[Fault] = []
    seen: set[str] = set()
    for place, one in enumerate(entries):
        if one["id"] in seen:
            faults.append((f"/entries/{place}/id", "The id stands twice."))
        seen.add(one["id"])
        try:
            items.append(names.item(one))
        except NotUnderstood as fault:
            faults += [(f"/entries/{place}{pointer}", says) for pointer, says in fault.faults]
    return _or_faults(items, faults)


def stock_in_table(rows: Iterable[Row], names: StockNames) -> list[StockItem]:
    """The entries in the rows of a table."""
    entries, faults = read_stock_table(rows)
    items: list[StockItem] = []
    schema, first_row = StockEntryAsked(), dict[str, int]()
    for entry in entries:
        try:
            item = names.item(schema.load(entry.plain))
        except ma.ValidationError as fault:
            of_names: list[Fault] = []
            names.settled(entry.plain, of_names)
            faults += _at_cells(entry, [*faults_of({"table": fault.messages}), *of_names], faults)
        except NotUnderstood as fault:
            faults += _at_cells(entry, fault.faults, faults)
        else:
            items.append(item)
            if first_row.setdefault(item.id, entry.row) != entry.row:
                faults.append(at_cell(entry.row, "id", f"this id stands in row {first_row[item.id]} already"))
    if not items and not faults:
        raise NotUnderstood(("", "the table names columns and holds no trees"))
    return _or_faults(items, faults)


def _at_cells(entry: TableEntry, faults: Iterable[Fault], known: Sequence[Fault]) -> list[Fault]:
    """Each fault at its cell; a cell that could not be read is told once, not as lacking as well."""
    return list(_new(entry, faults, {pointer for pointer, _ in known}))


def _new(entry: TableEntry, faults: Iterable[Fault], told: set[str]) -> Iterator[Fault]:
    for pointer, sentence in faults:
        found = at_cell(entry.row, pointer.strip("/"), sentence)
        if found[0] not in told:
            yield found


def _or_faults(items: list[StockItem], faults: list[Fault]) -> list[StockItem]:
    if len(faults) > MOST_FAULTS:
        raise NotUnderstood(*faults[:MOST_FAULTS], ("", f"There are {len(faults) - MOST_FAULTS:,} more."))
    if faults:
        raise NotUnderstood(*faults)
    return items
