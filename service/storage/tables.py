"""The tables. Questions and answers are kept as the JSON text that was sent, so that they stay the same bytes.

A change here needs a migration in migrations/versions; a test compares the two.
"""

from __future__ import annotations

from sqlalchemy import ForeignKey, MetaData, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Table(DeclarativeBase):
    """What all tables share: names for constraints, so that migrations can name them."""

    metadata = MetaData(naming_convention=NAMES)


class StoreRow(Table):
    """A store."""

    __tablename__ = "stores"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    name: Mapped[str] = mapped_column(String(200))
    invented: Mapped[bool]


class SiteRow(Table):
    """A planting place that a store keeps."""

    __tablename__ = "sites"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    store_id: Mapped[str] = mapped_column(ForeignKey("stores.id", ondelete="CASCADE"), index=True)
    label: Mapped[str] = mapped_column(String(200))
    facts: Mapped[str] = mapped_column(Text)


class StockRow(Table):
    """One kind of tree to sell; `store_id` is empty where it came in as stock and not with a whole store."""

    __tablename__ = "stock_items"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    store_id: Mapped[str | None] = mapped_column(ForeignKey("stores.id", ondelete="CASCADE"), index=True)
    cultivar: Mapped[str] = mapped_column(String(100), index=True)
    rootstock: Mapped[str | None] = mapped_column(String(100))
    quantity: Mapped[int]
    form: Mapped[str | None] = mapped_column(String(100))
    size: Mapped[str | None] = mapped_column(String(100))
    price: Mapped[str | None] = mapped_column(String(20))
    currency: Mapped[str | None] = mapped_column(String(3))
    version: Mapped[int]
    changed_at: Mapped[str | None] = mapped_column(String(32))


class ConsultationRow(Table):
    """A kept consultation."""

    __tablename__ = "consultations"

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    question: Mapped[str] = mapped_column(String(64), index=True)
    asked: Mapped[str] = mapped_column(Text)
    answer: Mapped[str] = mapped_column(Text)
    rulebook: Mapped[str] = mapped_column(String(64))
    kept_at: Mapped[str] = mapped_column(String(32))


class KeyRow(Table):
    """An idempotency key, and the consultation that was kept under it."""

    __tablename__ = "idempotency_keys"

    key: Mapped[str] = mapped_column(String(255), primary_key=True)
    request_digest: Mapped[str] = mapped_column(String(64))
    consultation_id: Mapped[str] = mapped_column(ForeignKey("consultations.id", ondelete="CASCADE"), index=True)


class ApplicationRow(Table):
    """One entry of the log of what was put on a tree."""

    __tablename__ = "applications"

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    reference: Mapped[str] = mapped_column(String(64), index=True)
    applied_on: Mapped[str] = mapped_column(String(10))
    actives: Mapped[str] = mapped_column(Text)
    logged_at: Mapped[str] = mapped_column(String(32))
    crop: Mapped[str | None] = mapped_column(String(64))
    product: Mapped[str | None] = mapped_column(String(64))
    version: Mapped[int | None]
    product_name: Mapped[str | None] = mapped_column(String(200))
    epa_reg_no: Mapped[str | None] = mapped_column(String(40))
    corrects: Mapped[str | None] = mapped_column(ForeignKey("applications.id"), unique=True)
    did_not_happen: Mapped[bool]


class ShelfProductRow(Table):
    """A product on the shelf of a store; what is withdrawn keeps its row and its versions."""

    __tablename__ = "shelf_products"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    version: Mapped[int]
    withdrawn_at: Mapped[str | None] = mapped_column(String(32))


class LabelVersionRow(Table):
    """One version of a product's label record; a row is never changed."""

    __tablename__ = "label_versions"

    product_id: Mapped[str] = mapped_column(ForeignKey("shelf_products.id", ondelete="CASCADE"), primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    record: Mapped[str] = mapped_column(Text)
    entered_at: Mapped[str] = mapped_column(String(32))


class HandOutRow(Table):
    """What a customer took home, until it expires."""

    __tablename__ = "hand_outs"

    secret: Mapped[str] = mapped_column(String(43), primary_key=True)
    sheet: Mapped[str] = mapped_column(Text)
    made_at: Mapped[str] = mapped_column(String(32))
    expires_at: Mapped[str] = mapped_column(String(32), index=True)
    idempotency_key: Mapped[str | None] = mapped_column(String(255), unique=True)
    request_digest: Mapped[str] = mapped_column(String(64))
