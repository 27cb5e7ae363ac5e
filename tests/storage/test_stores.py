"""A store goes in once and comes out as it went in, on both databases."""

from __future__ import annotations

from service.domain.store import StockItem, Store, StoreSite
from service.intake.demo_store import read_demo_store
from service.reasoning.rulebook import Rulebook
from service.settings import CHECKOUT
from service.storage.database import Database
from service.storage.stores import find_store, put_store, trees_in_stock

CORNER = Store(
    id="corner",
    name="Corner (invented)",
    invented=True,
    sites=(StoreSite("site_1", "Behind the church", {"hardiness_zone": "7b", "replant": True}),),
    stock=(
        StockItem("stock_1", "apple.gala", "m_7", 14, "bare root"),
        StockItem("stock_2", "fig.mission", None, 8),
    ),
)


def test_a_store_comes_out_as_it_went_in(database: Database) -> None:
    assert put_store(database, CORNER)
    assert find_store(database, "corner") == CORNER
    assert trees_in_stock(database, "corner") == 22


def test_a_store_goes_in_once(database: Database) -> None:
    put_store(database, CORNER)
    assert not put_store(database, CORNER)
    assert trees_in_stock(database, "corner") == 22


def test_a_store_that_is_not_there(database: Database) -> None:
    assert find_store(database, "corner") is None
    assert trees_in_stock(database, "corner") == 0


def test_the_invented_store_is_marked_as_such_and_goes_in(database: Database, rulebook: Rulebook) -> None:
    store = read_demo_store(CHECKOUT / "rules" / "demo" / "store.yaml", rulebook.catalogue)
    assert store.invented
    assert "invented" in store.name
    assert len(store.stock) >= 10
    put_store(database, store)
    assert find_store(database, store.id) == store
