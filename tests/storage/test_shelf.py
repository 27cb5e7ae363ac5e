"""A shelf keeps every version of every label record, on both databases."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sqlalchemy import inspect

from service.domain.label import LabelRecord
from service.domain.plain_label import read_record
from service.storage.database import Database
from service.storage.migration import downgrade, upgrade
from service.storage.shelf import (
    ChangedMeanwhile,
    NotOnShelf,
    OnShelfAlready,
    add_product,
    change_product,
    find_product,
    find_version,
    put_all,
    shelf,
    versions_of,
    withdraw,
)
from tests.made_up_labels import label

FIRST = read_record(label(id="P-1")).record
SECOND = replace(FIRST, signal_word="WARNING", product_name="Über \x00 \ud83c\udf4e")


def test_a_record_comes_out_as_it_went_in(database: Database) -> None:
    product = add_product(database, FIRST)
    assert (product.version, product.versions, product.withdrawn_at) == (1, 1, None)
    assert shelf(database) == (product,)
    assert find_product(database, "P-1") == product


def test_a_change_writes_a_new_version_and_leaves_the_old_one(database: Database) -> None:
    add_product(database, FIRST)
    assert change_product(database, SECOND).version == 2
    old = find_version(database, "P-1", 1)
    assert old is not None
    assert old.record == FIRST
    assert (old.version, old.versions) == (1, 2)
    assert [one.version for one in versions_of(database, "P-1")] == [2, 1]
    assert [one.record.signal_word for one in shelf(database)] == ["WARNING"]


def test_a_record_that_stands_so_already_makes_no_new_version(database: Database) -> None:
    add_product(database, FIRST)
    assert change_product(database, FIRST).version == 1


def test_a_change_on_what_somebody_else_changed_is_refused(database: Database) -> None:
    add_product(database, FIRST)
    change_product(database, SECOND, based_on=1)
    with pytest.raises(ChangedMeanwhile, match="version 2 now"):
        change_product(database, FIRST, based_on=1)
    assert [one.version for one in versions_of(database, "P-1")] == [2, 1]


def test_what_is_withdrawn_is_off_the_shelf_and_not_erased(database: Database) -> None:
    add_product(database, FIRST)
    assert withdraw(database, "P-1").withdrawn_at is not None
    assert shelf(database) == ()
    assert [one.id for one in shelf(database, withdrawn=True)] == ["P-1"]
    assert find_version(database, "P-1", 1) is not None


def test_withdrawing_twice_keeps_the_first_time(database: Database) -> None:
    add_product(database, FIRST)
    assert withdraw(database, "P-1").withdrawn_at == withdraw(database, "P-1").withdrawn_at


def test_a_product_comes_back_with_its_versions(database: Database) -> None:
    add_product(database, FIRST)
    withdraw(database, "P-1")
    back = add_product(database, SECOND)
    assert (back.version, back.withdrawn_at) == (2, None)
    assert [one.id for one in shelf(database)] == ["P-1"]


def test_an_id_that_is_on_the_shelf_is_not_taken_again(database: Database) -> None:
    add_product(database, FIRST)
    with pytest.raises(OnShelfAlready, match="P-1"):
        add_product(database, SECOND)
    assert [one.record for one in shelf(database)] == [FIRST]


def test_all_of_a_file_goes_in_or_nothing(database: Database) -> None:
    add_product(database, FIRST)
    unfit = LabelRecord(id="P" * 65, product_name="x")
    unwritable = replace(FIRST, id=None)
    with pytest.raises(AssertionError):
        put_all(database, [SECOND, replace(FIRST, id="P-2"), unwritable])
    assert [one.record for one in shelf(database)] == [FIRST]
    assert [one.version for one in put_all(database, [SECOND, replace(unfit, id="P-2")])] == [2, 1]
    assert [one.id for one in shelf(database)] == ["P-1", "P-2"]


def test_what_is_not_there(database: Database) -> None:
    assert find_product(database, "P-1") is None
    assert find_version(database, "P-1", 1) is None
    assert versions_of(database, "P-1") == ()
    with pytest.raises(NotOnShelf):
        withdraw(database, "P-1")
    with pytest.raises(NotOnShelf):
        change_product(database, FIRST)


def test_the_tables_of_the_shelf_come_and_go_with_their_migration(empty: Database) -> None:
    upgrade(empty, "0002")
    add_product(empty, FIRST)
    downgrade(empty, "0001")
    assert {"shelf_products", "label_versions"}.isdisjoint(inspect(empty.engine).get_table_names())
    upgrade(empty, "0002")
    assert shelf(empty) == ()
