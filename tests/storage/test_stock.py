"""Stock on both databases: what goes in comes out, two changes at once learn of each other, and it migrates back."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from service.domain.store import StockItem, Store
from service.storage.database import Database
from service.storage.migration import downgrade, upgrade
from service.storage.stock import (
    CountedMeanwhile,
    InStockAlready,
    NotInStock,
    add_stock,
    change_stock,
    find_stock,
    kept_stock,
    put_stock,
    stock_of,
    take_out,
)
from service.storage.stores import find_store, put_store

GALA = StockItem("gala-m7", "apple.gala", "m_7", 14, "bare root", "3/4 in", Decimal("39.90"), "USD")
FIG = StockItem("fig-1", "fig.mission", None, 0)


def test_nothing_is_known_of_a_stock_that_nobody_entered(database: Database) -> None:
    assert stock_of(database) is None
    add_stock(database, FIG)
    assert stock_of(database) == (FIG,)


def test_an_entry_comes_out_as_it_went_in(database: Database) -> None:
    assert add_stock(database, GALA).version == 1
    kept = find_stock(database, "gala-m7")
    assert kept is not None
    assert kept.item == GALA
    assert (kept.changed_at or "").endswith("Z")


def test_an_id_is_entered_once(database: Database) -> None:
    add_stock(database, GALA)
    with pytest.raises(InStockAlready):
        add_stock(database, replace(GALA, quantity=1))
    assert stock_of(database) == (GALA,)


def test_a_change_raises_the_version_and_a_repeat_does_not(database: Database) -> None:
    add_stock(database, GALA)
    fewer = replace(GALA, quantity=12)
    assert change_stock(database, fewer).version == 2
    assert change_stock(database, replace(fewer, price=Decimal("39.9"))).version == 2
    assert stock_of(database) == (fewer,)


def test_two_people_who_count_at_once_learn_of_each_other(database: Database) -> None:
    add_stock(database, GALA)
    change_stock(database, replace(GALA, quantity=13), based_on=1)
    with pytest.raises(CountedMeanwhile):
        change_stock(database, replace(GALA, quantity=15), based_on=1)
    assert kept_stock(database)[0].item.quantity == 13


def test_what_is_not_there_is_neither_changed_nor_taken_out(database: Database) -> None:
    with pytest.raises(NotInStock):
        change_stock(database, GALA)
    with pytest.raises(NotInStock):
        take_out(database, "gala-m7")


def test_many_go_in_and_some_go_out_at_once(database: Database) -> None:
    put_stock(database, [GALA, FIG])
    put_stock(database, [replace(FIG, quantity=3)], take_out=["gala-m7", "never-there"])
    assert stock_of(database) == (replace(FIG, quantity=3),)


def test_stock_of_a_store_keeps_its_store_when_it_changes(database: Database) -> None:
    put_store(database, Store("corner", "Corner (invented)", True, stock=(FIG,)))
    change_stock(database, replace(FIG, quantity=2))
    found = find_store(database, "corner")
    assert found is not None
    assert found.stock == (replace(FIG, quantity=2),)


def test_the_stock_of_stores_survives_the_way_back_and_forth(database: Database) -> None:
    put_store(database, Store("corner", "Corner (invented)", True, stock=(FIG,)))
    add_stock(database, GALA)
    downgrade(database, "0003")
    upgrade(database)
    assert stock_of(database) == (FIG,)
