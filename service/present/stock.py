"""Entries of the stock as plain data, and what an import changes in them."""

from __future__ import annotations

from typing import Any

from service.domain.store import KeptStock, StockItem
from service.knowledge.catalogue import Catalogue

_FIELDS = ("cultivar", "rootstock", "quantity", "form", "size", "price", "currency")


def stock_told(kept: KeptStock, catalogue: Catalogue) -> dict[str, Any]:
    """One entry as it is kept, with the names of what it holds."""
    item = kept.item
    cultivar = catalogue.cultivars.get(item.cultivar)  # a cultivar may have left the catalogue since
    root = None if item.rootstock is None else catalogue.rootstocks.get(item.rootstock)
    return {
        "id": item.id,
        "version": kept.version,
        "changed_at": kept.changed_at,
        "crop": None if cultivar is None else cultivar.crop,
        **{field: _plain(item, field) for field in _FIELDS},
        "cultivar_name": None if cultivar is None else cultivar.denomination,
        "rootstock_name": None if root is None else root.name,
    }


def stock_changes(before: StockItem, after: StockItem) -> list[dict[str, Any]]:
    """The fields in which two entries differ, with both values.

    >>> stock_changes(StockItem("a", "fig.mission", None, 8), StockItem("a", "fig.mission", None, 6))
    [{'field': 'quantity', 'before': 8, 'after': 6}]
    """
    return [
        {"field": field, "before": _plain(before, field), "after": _plain(after, field)}
        for field in _FIELDS
        if getattr(before, field) != getattr(after, field)
    ]


def _plain(item: StockItem, field: str) -> Any:
    value = getattr(item, field)
    return float(value) if field == "price" and value is not None else value
