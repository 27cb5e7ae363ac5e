"""The tables. Questions and answers are kept as the JSON text that was sent, so that they stay the same bytes.

A change here needs a migration in migrations/versions; a test compares the two.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, LargeBinary, MetaData, String, Text, UniqueConstraint
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


class TicketRow(Table):
    """What a customer told at the kiosk, under a short number, until the day ends."""

    __tablename__ = "tickets"

    number: Mapped[str] = mapped_column(String(6), primary_key=True)
    told: Mapped[str] = mapped_column(Text)
    made_at: Mapped[str] = mapped_column(String(32))
    expires_at: Mapped[str] = mapped_column(String(32), index=True)
    idempotency_key: Mapped[str | None] = mapped_column(String(255), unique=True)
    request_digest: Mapped[str] = mapped_column(String(64))


class PlantingListRow(Table):
    """A planting list that was sent to be checked in its own time."""

    __tablename__ = "planting_lists"

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    form: Mapped[str] = mapped_column(String(8))
    name: Mapped[str | None] = mapped_column(String(300))
    terms: Mapped[str] = mapped_column(Text)
    lines_expected: Mapped[int | None]
    key: Mapped[str | None] = mapped_column(String(255), unique=True)
    request_digest: Mapped[str] = mapped_column(String(64))
    sent_at: Mapped[str] = mapped_column(String(32))


class ListPieceRow(Table):
    """A piece of what was sent; the pieces in their order are the whole."""

    __tablename__ = "planting_list_pieces"

    list_id: Mapped[str] = mapped_column(ForeignKey("planting_lists.id", ondelete="CASCADE"), primary_key=True)
    piece: Mapped[int] = mapped_column(primary_key=True)
    content: Mapped[bytes] = mapped_column(LargeBinary)


class ListCheckRow(Table):
    """A check of a planting list; `attempt` counts those who took it, `stuck` those since the last part was done."""

    __tablename__ = "planting_list_checks"
    __table_args__ = (UniqueConstraint("list_id", "number"),)

    id: Mapped[str] = mapped_column(String(32), primary_key=True)
    list_id: Mapped[str] = mapped_column(ForeignKey("planting_lists.id", ondelete="CASCADE"))
    number: Mapped[int]
    asked_at: Mapped[str] = mapped_column(String(32))
    state: Mapped[str] = mapped_column(String(16), index=True)
    attempt: Mapped[int]
    stuck: Mapped[int]
    parts: Mapped[int]
    lines: Mapped[int]
    verdicts: Mapped[str] = mapped_column(Text)
    rulebook: Mapped[str | None] = mapped_column(String(64))
    list_verdict: Mapped[str | None] = mapped_column(String(32))
    told: Mapped[bytes | None] = mapped_column(LargeBinary)
    changed_lines: Mapped[int | None]
    faults: Mapped[str | None] = mapped_column(Text)
    ended_at: Mapped[str | None] = mapped_column(String(32))


class ListPartRow(Table):
    """Some checked lines of a planting list."""

    __tablename__ = "planting_list_parts"

    check_id: Mapped[str] = mapped_column(ForeignKey("planting_list_checks.id", ondelete="CASCADE"), primary_key=True)
    part: Mapped[int] = mapped_column(primary_key=True)
    lines: Mapped[int]
    verdicts: Mapped[str] = mapped_column(Text)
    tally: Mapped[str] = mapped_column(Text)
    told: Mapped[bytes] = mapped_column(LargeBinary)


class LeaseRow(Table):
    """Work that only one process does at a time, who has it, and until when unless they renew it."""

    __tablename__ = "leases"

    name: Mapped[str] = mapped_column(String(64), primary_key=True)
    holder: Mapped[str] = mapped_column(String(64))
    until_ms: Mapped[int] = mapped_column(BigInteger)
