"""The records of a file, held to the schema of a single one; a fault in a table is told with its row and column."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from copy import deepcopy
from typing import Any

import marshmallow as ma

from service.api.label_asked import LabelAsked, settled_record
from service.api.pointers import faults_of
from service.domain.errors import NotUnderstood
from service.domain.plain_label import ReadRecord
from service.intake.label_names import LabelNames
from service.intake.shelf_table import TableProduct, at_cell, read_table

MOST_FAULTS = 1000


def records_in_json(products: Sequence[Mapping[str, Any]], names: LabelNames) -> list[ReadRecord]:
    """The records of checked JSON objects, each with an id of its own."""
    read: list[ReadRecord] = []
    faults: list[tuple[str, str]] = []
    seen: set[str] = set()
    for place, one in enumerate(products):
        if one.get("id") is None or one["id"] in seen:
            says = "The id stands twice." if one.get("id") else "An id is needed, to know the product again."
            faults.append((f"/products/{place}/id", says))
            continue
        seen.add(one["id"])
        try:
            read.append(settled_record(one, names.for_another(), pointer=f"/products/{place}"))
        except NotUnderstood as fault:
            faults += fault.faults
    return _or_faults(read, faults)


def records_in_table(rows: Iterable[tuple[int, Sequence[str]]], names: LabelNames) -> list[ReadRecord]:
    """The records in the rows of a table."""
    read: list[ReadRecord] = []
    products, faults = read_table(rows)
    schema = LabelAsked()
    for product in products:
        try:
            read.append(settled_record(schema.load(product.plain), names.for_another()))
        except ma.ValidationError as fault:
            faults += _at_cells(product, faults_of({"table": fault.messages}))
            others = names.for_another()
            others.settle(deepcopy(product.plain))
            faults += _at_cells(product, others.faults)
        except NotUnderstood as fault:
            faults += _at_cells(product, fault.faults)
    if not read and not faults:
        raise NotUnderstood(("", "the table names columns and holds no product"))
    return _or_faults(read, faults)


def _at_cells(product: TableProduct, faults: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    return [at_cell(*product.place_of(pointer), sentence) for pointer, sentence in faults]


def _or_faults(read: list[ReadRecord], faults: list[tuple[str, str]]) -> list[ReadRecord]:
    if len(faults) > MOST_FAULTS:
        more = ("", f"There are {len(faults) - MOST_FAULTS:,} more.")
        raise NotUnderstood(*faults[:MOST_FAULTS], more)
    if faults:
        raise NotUnderstood(*faults)
    return read
