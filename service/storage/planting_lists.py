"""Keeps planting lists that are checked in their own time, with all that was sent, until somebody removes them."""

from __future__ import annotations

import json
import uuid
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from typing import BinaryIO

from sqlalchemy import delete, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.domain.list_batch import Asking, SentList
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.queue import enqueue
from service.storage.tables import ListCheckRow, ListPieceRow, PlantingListRow

PIECE_BYTES = 1024 * 1024


def keep_list(database: Database, sent: SentList, content: Iterable[bytes], *, asking: Asking) -> str:
    """Store a list together with its first check, which is in the queue then; the id of the list.

    When another request with the same key was faster, the id is that of its list.
    """
    try:
        with database.writing() as session:
            return _kept(session, sent, content, asking)
    except IntegrityError:
        earlier = list_under(database, asking)
        if earlier is None:
            raise
        return earlier


def list_under(database: Database, asking: Asking) -> str | None:
    """The list that was kept under the key of a request; KeyUsedOtherwise when the request then was another."""
    if asking.key is None:
        return None
    with database.reading() as session:
        row = session.scalars(select(PlantingListRow).where(PlantingListRow.key == asking.key)).one_or_none()
        if row is None:
            return None
        if row.request_digest != asking.request_digest:
            raise KeyUsedOtherwise("This key was used before with another request; take a new one.")
        return row.id


def copy_content(database: Database, list_id: str, into: BinaryIO) -> None:
    """Write what was sent into a file, piece by piece."""
    wanted = select(ListPieceRow.piece).where(ListPieceRow.list_id == list_id).order_by(ListPieceRow.piece)
    with database.reading() as session:
        for piece in session.scalars(wanted).all():
            into.write(
                session.scalars(
                    select(ListPieceRow.content).where(ListPieceRow.list_id == list_id, ListPieceRow.piece == piece)
                ).one()
            )


def remove_list(database: Database, list_id: str) -> bool:
    """Remove a list with all its checks; says whether it was there."""
    with database.writing() as session:
        removed = session.execute(delete(PlantingListRow).where(PlantingListRow.id == list_id))
        return bool(removed.rowcount)  # type: ignore[attr-defined]


def check_again(database: Database, rulebook: str, *, most: int | None = None) -> int:
    """Put every list into the queue whose last check is done and was by another rulebook; how many those are.

    All are put there or none. A list that is in the queue already is not put there again.
    """
    try:
        return _checked_again(database, rulebook, most)
    except IntegrityError:  # another did the same at the same time, so what it put there is left out now
        return _checked_again(database, rulebook, most)


def _checked_again(database: Database, rulebook: str, most: int | None) -> int:
    with database.writing() as session:
        found = session.execute(_by_another(rulebook).limit(most)).all()
        checks = [new_check(list_id, number + 1) for list_id, number in found]
        session.add_all(checks)
        enqueue(session, [check.id for check in checks])
        return len(checks)


def lists_to_check_again(database: Database, rulebook: str) -> int:
    """How many lists `check_again` would put into the queue."""
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(_by_another(rulebook).subquery())) or 0


def new_check(list_id: str, number: int) -> ListCheckRow:
    """A check that nobody has begun."""
    return ListCheckRow(
        id=uuid.uuid4().hex,
        list_id=list_id,
        number=number,
        asked_at=now_text(),
        state="waiting",
        attempt=0,
        stuck=0,
        parts=0,
        lines=0,
        verdicts="{}",
    )


def now_text() -> str:
    """The time of now (UTC)."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def pieces_of(file: BinaryIO) -> Iterator[bytes]:
    """A file in pieces as they are stored."""
    while piece := file.read(PIECE_BYTES):
        yield piece


def _kept(session: Session, sent: SentList, content: Iterable[bytes], asking: Asking) -> str:
    row = PlantingListRow(
        id=uuid.uuid4().hex,
        form=sent.form,
        name=sent.name,
        terms=json.dumps(sent.terms),
        lines_expected=sent.lines_expected,
        key=asking.key,
        request_digest=asking.request_digest,
        sent_at=now_text(),
    )
    session.add(row)
    session.flush()
    for number, piece in enumerate(content):
        session.add(ListPieceRow(list_id=row.id, piece=number, content=piece))
        session.flush()
        session.expunge_all()  # a long list need not stay in memory
    check = new_check(row.id, 1)
    session.add(check)
    enqueue(session, [check.id])
    return row.id


def _by_another(rulebook: str):  # type: ignore[no-untyped-def]  # the type of a select tells nothing more
    newest = (
        select(ListCheckRow.list_id, func.max(ListCheckRow.number).label("number"))
        .group_by(ListCheckRow.list_id)
        .subquery()
    )
    return (
        select(ListCheckRow.list_id, ListCheckRow.number)
        .join(newest, (newest.c.list_id == ListCheckRow.list_id) & (newest.c.number == ListCheckRow.number))
        .where(ListCheckRow.state == "done", ListCheckRow.rulebook != rulebook)
        .order_by(ListCheckRow.asked_at, ListCheckRow.list_id)
    )
