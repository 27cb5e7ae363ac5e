"""Keeps the trees that the store has to sell: how many of which cultivar, on which rootstock, how big, at what price.

A change raises the version of its entry, so that two people who change it at once learn of each other; an entry that
comes in as it stands already is left alone. What is taken out is gone, for yesterday's count helps nobody.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from decimal import Decimal

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.domain.errors import FruitwrightError
from service.domain.store import KeptStock, StockItem
from service.storage.database import Database
from service.storage.tables import StockRow


class InStockAlready(FruitwrightError):
    """A new entry has the id of one that is there."""


class NotInStock(FruitwrightError):
    """No entry has this id."""


class CountedMeanwhile(FruitwrightError):
    """Somebody else changed the entry since it was read."""


def kept_stock(database: Database) -> tuple[KeptStock, ...]:
    """Every entry, in the order of the ids."""
    with database.reading() as session:
        rows = [_kept(row) for row in session.scalars(select(StockRow))]
    return tuple(sorted(rows, key=lambda kept: kept.item.id))


def stock_of(database: Database) -> tuple[StockItem, ...] | None:
    """The trees in stock; None where nobody ever entered any, for then nothing is known of the stock."""
    return tuple(kept.item for kept in kept_stock(database)) or None


def find_stock(database: Database, item_id: str) -> KeptStock | None:
    """The entry of this id."""
    with database.reading() as session:
        row = session.get(StockRow, item_id)
        return None if row is None else _kept(row)


def add_stock(database: Database, item: StockItem) -> KeptStock:
    """Enter trees that are new in stock."""
    try:
        with database.writing() as session:
            if session.get(StockRow, item.id) is not None:
                raise InStockAlready(f"The stock has an entry “{item.id}” already; change that one (PUT).")
            return _put(session, item)
    except IntegrityError:
        raise InStockAlready(f"The stock has an entry “{item.id}” already; change that one (PUT).") from None


def change_stock(database: Database, item: StockItem, *, based_on: int | None = None) -> KeptStock:
    """Change an entry; `based_on` is the version that was read, to see what others did meanwhile."""
    with database.writing() as session:
        row = _locked(session, item.id)
        if row is None:
            raise NotInStock("The stock has no entry of this id.")
        if based_on is not None and row.version != based_on:
            raise CountedMeanwhile(f"The entry stands at version {row.version} now, not {based_on}; read it again.")
        return _put(session, item)


def put_stock(database: Database, items: Sequence[StockItem], *, take_out: Sequence[str] = ()) -> None:
    """Enter all of them, new or changed, and take those of `take_out` away; all of it or nothing."""
    with database.writing() as session:
        for item_id in take_out:
            _take_out(session, item_id)
        for item in items:
            _put(session, item)


def take_out(database: Database, item_id: str) -> None:
    """Take an entry out of the stock."""
    with database.writing() as session:
        if not _take_out(session, item_id):
            raise NotInStock("The stock has no entry of this id.")


def stock_row(item: StockItem, store_id: str | None) -> StockRow:
    """The row of an entry that is new."""
    return StockRow(id=item.id, store_id=store_id, version=1, changed_at=None, **_columns(item))


def stock_item(row: StockRow) -> StockItem:
    """The entry in a row."""
    price = None if row.price is None else Decimal(row.price)
    return StockItem(
        id=row.id,
        cultivar=row.cultivar,
        rootstock=row.rootstock,
        quantity=row.quantity,
        form=row.form,
        size=row.size,
        price=price,
        currency=row.currency,  # type: ignore[arg-type]  # only a checked one is ever written
    )


def _put(session: Session, item: StockItem) -> KeptStock:
    row = _locked(session, item.id)
    if row is None:
        row = stock_row(item, None)
        session.add(row)
    elif stock_item(row) == item:
        return _kept(row)
    else:
        row.version += 1
        for column, value in _columns(item).items():
            setattr(row, column, value)
    row.changed_at = datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
    session.flush()
    return _kept(row)


def _columns(item: StockItem) -> dict[str, str | int | None]:
    return {
        "cultivar": item.cultivar,
        "rootstock": item.rootstock,
        "quantity": item.quantity,
        "form": item.form,
        "size": item.size,
        "price": None if item.price is None else str(item.price),
        "currency": item.currency,
    }


def _take_out(session: Session, item_id: str) -> bool:
    row = _locked(session, item_id)
    if row is None:
        return False
    session.delete(row)
    session.flush()
    return True


def _locked(session: Session, item_id: str) -> StockRow | None:
    return session.get(StockRow, item_id, with_for_update=True)


def _kept(row: StockRow) -> KeptStock:
    return KeptStock(stock_item(row), row.version, row.changed_at)
