"""A store's own records: its name, the sites of its customers by reference code, and the trees it has to sell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from service.domain.planting_list import Currency


@dataclass(frozen=True, slots=True)
class StoreSite:
    """A planting place under a reference code, never under a person's name; `facts` as a question asks for them."""

    id: str
    label: str
    facts: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class StockItem:
    """One kind of tree to sell; `form` and `size` are the words of the store, such as bare root and 5 gal."""

    id: str
    cultivar: str
    rootstock: str | None
    quantity: int
    form: str | None = None
    size: str | None = None
    price: Decimal | None = None
    currency: Currency | None = None


@dataclass(frozen=True, slots=True)
class KeptStock:
    """One entry as it is kept; `changed_at` is UTC text, None for one that came with a whole store."""

    item: StockItem
    version: int
    changed_at: str | None


@dataclass(frozen=True, slots=True)
class Store:
    """One store with what it keeps; `invented` marks data made up for demonstration."""

    id: str
    name: str
    invented: bool
    sites: tuple[StoreSite, ...] = ()
    stock: tuple[StockItem, ...] = ()


@dataclass(frozen=True, slots=True)
class StoreWinter:
    """The chill of one winter at the store, in either count."""

    winter: str
    chill_hours: float | None = None
    chill_portions: float | None = None


@dataclass(frozen=True, slots=True)
class StoreClimate:
    """What staff reckon with where a customer knows nothing of their climate; `facts` as a question asks for them."""

    name: str
    invented: bool
    facts: Mapping[str, Any]
    winters: tuple[StoreWinter, ...] = ()
