"""Reads the invented store that the service can be tried out with."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

from service.domain.errors import KnowledgeFault
from service.domain.store import StockItem, Store, StoreSite
from service.knowledge.catalogue import Catalogue
from service.knowledge.strict_yaml import Mapping, read


def read_demo_store(file: Path, catalogue: Catalogue) -> Store:
    """The store in a file; a cultivar or rootstock that the catalogue does not hold is a fault with its line."""
    shown = f"{file.parent.name}/{file.name}"
    data = read(file, shown_as=shown)
    head = data["store"]
    for entry in data["stock"]:
        _check(shown, entry, "cultivar", catalogue.cultivars)
        _check(shown, entry, "rootstock", catalogue.rootstocks)
    return Store(
        id=head["id"],
        name=head["name"],
        invented=head["invented"],
        sites=tuple(StoreSite(entry["id"], entry["label"], entry["facts"]) for entry in data["sites"]),
        stock=tuple(_stock(entry) for entry in data["stock"]),
    )


def _stock(entry: Mapping) -> StockItem:
    return StockItem(
        id=entry["id"],
        cultivar=entry["cultivar"],
        rootstock=entry.get("rootstock"),
        quantity=entry["quantity"],
        form=entry.get("form"),
        size=entry.get("size"),
        price=None if entry.get("price") is None else Decimal(str(entry["price"])),
        currency=entry.get("currency"),
    )


def _check(shown: str, entry: Mapping, key: str, known: Any) -> None:
    named = entry.get(key)
    if named is not None and named not in known:
        raise KnowledgeFault(shown, entry.line, f"there is no {key} '{named}' in the catalogue", entry=entry["id"])
