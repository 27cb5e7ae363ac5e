"""Keeps stores with their sites and their stock."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from sqlalchemy import func, select

from service.domain.store import Store, StoreSite
from service.storage.database import Database
from service.storage.stock import stock_item, stock_row
from service.storage.tables import SiteRow, StockRow, StoreRow


def put_store(database: Database, store: Store) -> bool:
    """Store it unless a store of this id is there already; says whether it was new."""
    with database.writing() as session:
        if session.get(StoreRow, store.id) is not None:
            return False
        session.add(StoreRow(id=store.id, name=store.name, invented=store.invented))
        session.flush()
        session.add_all(_site(site, store.id) for site in store.sites)
        session.add_all(stock_row(item, store.id) for item in store.stock)
    return True


def find_store(database: Database, store_id: str) -> Store | None:
    """The store of this id with its sites and its stock, in the order of their ids."""
    with database.reading() as session:
        row = session.get(StoreRow, store_id)
        if row is None:
            return None
        sites = session.scalars(select(SiteRow).where(SiteRow.store_id == store_id).order_by(SiteRow.id))
        stock = session.scalars(select(StockRow).where(StockRow.store_id == store_id).order_by(StockRow.id))
        return Store(
            id=row.id,
            name=row.name,
            invented=row.invented,
            sites=tuple(StoreSite(site.id, site.label, json.loads(site.facts)) for site in sites),
            stock=tuple(stock_item(item) for item in stock),
        )


def trees_in_stock(database: Database, store_id: str) -> int:
    """How many trees a store has to sell."""
    with database.reading() as session:
        wanted = select(func.coalesce(func.sum(StockRow.quantity), 0)).where(StockRow.store_id == store_id)
        return session.scalars(wanted).one()


def find_site(database: Database, site_id: str) -> Mapping[str, Any] | None:
    """What is known of a site that a store keeps."""
    with database.reading() as session:
        row = session.get(SiteRow, site_id)
        return None if row is None else json.loads(row.facts)


def _site(site: StoreSite, store_id: str) -> SiteRow:
    return SiteRow(id=site.id, store_id=store_id, label=site.label, facts=json.dumps(site.facts))
