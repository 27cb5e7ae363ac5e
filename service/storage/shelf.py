"""Keeps the products of a shelf. A change writes a new version and leaves the old one; what is withdrawn is not erased.

A record that comes in as it stands already makes no new version.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.domain.errors import FruitwrightError
from service.domain.label import LabelRecord
from service.domain.plain_label import plain_record, read_record
from service.domain.shelf import ShelfProduct
from service.storage.database import Database
from service.storage.tables import LabelVersionRow, ShelfProductRow


class OnShelfAlready(FruitwrightError):
    """A new product has the id of one that is there."""


class NotOnShelf(FruitwrightError):
    """No product has this id."""


class ChangedMeanwhile(FruitwrightError):
    """Somebody else changed the product since it was read."""


def shelf(database: Database, *, withdrawn: bool = False) -> tuple[ShelfProduct, ...]:
    """The products on the shelf in their newest version, in the order of their ids; or those that were withdrawn."""
    newest = (LabelVersionRow.product_id == ShelfProductRow.id) & (LabelVersionRow.version == ShelfProductRow.version)
    gone = ShelfProductRow.withdrawn_at.is_not(None) if withdrawn else ShelfProductRow.withdrawn_at.is_(None)
    wanted = select(ShelfProductRow, LabelVersionRow).join(LabelVersionRow, newest).where(gone)
    with database.reading() as session:
        found = [_product(row, version) for row, version in session.execute(wanted)]
    return tuple(sorted(found, key=lambda product: product.id))


def find_product(database: Database, product_id: str) -> ShelfProduct | None:
    """The product of this id in its newest version, withdrawn or not."""
    with database.reading() as session:
        return _found(session, product_id)


def find_version(database: Database, product_id: str, version: int) -> ShelfProduct | None:
    """One version of a product."""
    with database.reading() as session:
        row = session.get(ShelfProductRow, product_id)
        kept = session.get(LabelVersionRow, (product_id, version))
        return _product(row, kept) if row and kept else None


def versions_of(database: Database, product_id: str) -> tuple[ShelfProduct, ...]:
    """All versions of a product, the newest first; none where there is no such product."""
    wanted = select(LabelVersionRow).where(LabelVersionRow.product_id == product_id)
    with database.reading() as session:
        row = session.get(ShelfProductRow, product_id)
        kept = session.scalars(wanted.order_by(LabelVersionRow.version.desc())) if row else ()
        return tuple(_product(row, version) for version in kept if row)


def add_product(database: Database, record: LabelRecord) -> ShelfProduct:
    """Put a new product on the shelf, or one back that was withdrawn; its record carries the id."""
    try:
        with database.writing() as session:
            there = _locked(session, record.id or "")
            if there is not None and there.withdrawn_at is None:
                raise OnShelfAlready(f"The shelf has a product “{record.id}” already; change that one (PUT).")
            return _put(session, record)
    except IntegrityError:
        raise OnShelfAlready(f"The shelf has a product “{record.id}” already; change that one (PUT).") from None


def change_product(database: Database, record: LabelRecord, *, based_on: int | None = None) -> ShelfProduct:
    """Write a new version of a product; `based_on` is the version that was read, to see what others did meanwhile."""
    with database.writing() as session:
        row = _locked(session, record.id or "")
        if row is None:
            raise NotOnShelf("No product of the shelf has this id.")
        if based_on is not None and row.version != based_on:
            raise ChangedMeanwhile(f"The product stands at version {row.version} now, not {based_on}; read it again.")
        return _put(session, record)


def put_all(database: Database, records: Sequence[LabelRecord]) -> tuple[ShelfProduct, ...]:
    """Put all of them on the shelf, new or changed, or none of them."""
    with database.writing() as session:
        return tuple(_put(session, record) for record in records)


def withdraw(database: Database, product_id: str) -> ShelfProduct:
    """Take a product off the shelf; its versions stay, and putting it again brings it back."""
    with database.writing() as session:
        row = _locked(session, product_id)
        if row is None:
            raise NotOnShelf("No product of the shelf has this id.")
        row.withdrawn_at = row.withdrawn_at or _now()
        session.flush()
        found = _found(session, product_id)
        assert found is not None
        return found


def _put(session: Session, record: LabelRecord) -> ShelfProduct:
    assert record.id is not None
    text = json.dumps(plain_record(record))
    row = _locked(session, record.id)
    if row is None:
        row = ShelfProductRow(id=record.id, version=0, withdrawn_at=None)
        session.add(row)
        session.flush()
    row.withdrawn_at = None
    kept = session.get(LabelVersionRow, (record.id, row.version))
    if kept is None or kept.record != text:
        row.version += 1
        kept = LabelVersionRow(product_id=record.id, version=row.version, record=text, entered_at=_now())
        session.add(kept)
    session.flush()
    return _product(row, kept)


def _locked(session: Session, product_id: str) -> ShelfProductRow | None:
    return session.get(ShelfProductRow, product_id, with_for_update=True)


def _found(session: Session, product_id: str) -> ShelfProduct | None:
    row = session.get(ShelfProductRow, product_id)
    kept = session.get(LabelVersionRow, (product_id, row.version)) if row else None
    return _product(row, kept) if row and kept else None


def _product(row: ShelfProductRow, kept: LabelVersionRow) -> ShelfProduct:
    record = replace(read_record(json.loads(kept.record)).record, id=row.id)
    return ShelfProduct(row.id, kept.version, record, kept.entered_at, row.version, row.withdrawn_at)


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
