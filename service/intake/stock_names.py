"""The names in an entry of the stock: cultivar and rootstock become ids, and what is not found is told.

A near miss is offered and never assumed, for trees that are sold under the wrong name grow for twenty years.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from service.domain.errors import NotUnderstood
from service.domain.store import StockItem
from service.knowledge.catalogue import Catalogue
from service.knowledge.names import Found, NameBook


class StockNames:
    """Settles the names of entries by a catalogue."""

    def __init__(self, book: NameBook, catalogue: Catalogue) -> None:
        self._book, self._catalogue = book, catalogue

    def item(self, plain: Mapping[str, Any]) -> StockItem:
        """The entry of plain values that were held to the schema; raises NotUnderstood with a pointer for each name."""
        faults: list[tuple[str, str]] = []
        cultivar, rootstock = self.settled(plain, faults)
        if plain.get("price") is None and plain.get("currency") is not None:
            faults.append(("/currency", "A currency stands here without a price."))
        if faults or cultivar is None:
            raise NotUnderstood(*faults)
        return StockItem(
            id=plain["id"],
            cultivar=cultivar,
            rootstock=rootstock,
            quantity=plain["quantity"],
            form=plain.get("form") or None,
            size=plain.get("size") or None,
            price=None if plain.get("price") is None else round(Decimal(str(plain["price"])), 2),
            currency=plain.get("currency"),
        )

    def settled(self, plain: Mapping[str, Any], faults: list[tuple[str, str]]) -> tuple[str | None, str | None]:
        """The ids of cultivar and rootstock, None where they are not said or found; `faults` takes what is wrong."""
        crop = self._crop(plain.get("crop"), faults)
        cultivar = self._cultivar(plain.get("cultivar"), crop, faults)
        return cultivar, self._rootstock(plain.get("rootstock"), cultivar, faults)

    def _crop(self, named: str | None, faults: list[tuple[str, str]]) -> str | None:
        if not named:
            return None
        found = self._book.crop(named)
        if found.exact is None:
            faults.append(("/crop", _not_found("crop", named, found)))
        return found.exact

    def _cultivar(self, named: str | None, crop: str | None, faults: list[tuple[str, str]]) -> str | None:
        if not named:
            return None
        found = self._book.cultivar(named, crop=crop)
        if found.exact is None:
            faults.append(("/cultivar", _not_found("cultivar", named, found)))
        return found.exact

    def _rootstock(self, named: str | None, cultivar: str | None, faults: list[tuple[str, str]]) -> str | None:
        if not named:
            return None
        found = self._book.rootstock(named)
        if found.exact is None:
            faults.append(("/rootstock", _not_found("rootstock", named, found)))
            return None
        crop = None if cultivar is None else self._catalogue.cultivars[cultivar].crop
        root = self._catalogue.rootstocks[found.exact]
        if crop is not None and crop not in root.crops:
            faults.append(("/rootstock", f"{root.name} is no rootstock for {self._catalogue.crops[crop].name}."))
        return found.exact


def _not_found(kind: str, named: str, found: Found) -> str:
    if found.same_name_in:
        several = ", ".join(f"“{one}”" for one in found.same_name_in)
        return f"“{named}” is the name of several: {several}; give the crop as well, or one of these ids."
    near = " or ".join(f"“{one.name}”" for one in found.near[:3])
    return f"No {kind} is called “{named}”" + (f"; did you mean {near}?" if near else ".")
