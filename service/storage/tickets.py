"""Keeps the tickets of the kiosk until their day ends; what has expired is deleted when one is made or opened."""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import delete, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from service.domain.errors import FruitwrightError
from service.domain.ticket import Ticket
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.tables import TicketRow

Life = tuple[datetime, datetime]
DIGITS = range(3, 7)
DRAWS = 200


class NoNumberLeft(FruitwrightError):
    """Every number is given away until the day ends."""


def new_ticket(came_for: str, language: str, questions: Sequence[Mapping[str, Any]], *, life: Life) -> Ticket:
    """A ticket that is not kept yet."""
    made, ends = life
    return Ticket(came_for, language, tuple(questions), _text(made), _text(ends))


def keep_ticket(database: Database, ticket: Ticket, *, key: str | None, digest: str) -> Ticket:
    """Store it under a short number that no living ticket has.

    When a request with the same key was faster, that one's ticket is given back; when another request drew the same
    number at the same moment, another is drawn.
    """
    for _ in range(DRAWS):
        try:
            with database.writing() as session:
                return _keep(session, ticket, key=key, digest=digest)
        except IntegrityError:
            earlier = ticket_under(database, key, digest) if key else None
            if earlier is not None:
                return earlier
    raise NoNumberLeft("Every ticket number is taken just now; try again in a moment.")


def ticket_under(database: Database, key: str, digest: str) -> Ticket | None:
    """What was kept under an idempotency key; raises KeyUsedOtherwise when the request then was another."""
    with database.reading() as session:
        row = session.scalar(select(TicketRow).where(TicketRow.idempotency_key == key))
        if row is not None and row.request_digest != digest:
            raise KeyUsedOtherwise("This key was used before with another request; take a new one.")
        return _ticket(row) if row else None


def open_ticket(database: Database, number: str, *, now: datetime) -> Ticket | None:
    """The living ticket of this number; one whose day has ended is deleted and opens for nobody."""
    with database.reading() as session:
        row = session.get(TicketRow, number)
        found = _ticket(row) if row else None
    if found is None or found.expires_at > _text(now):
        return found
    with database.writing() as session:
        _sweep(session, _text(now))
    return None


def _keep(session: Session, ticket: Ticket, *, key: str | None, digest: str) -> Ticket:
    _sweep(session, ticket.made_at)
    kept = replace(ticket, number=_free_number(session))
    told = {"came_for": kept.came_for, "language": kept.language, "questions": list(kept.questions)}
    row = TicketRow(
        number=kept.number,
        told=json.dumps(told),
        made_at=kept.made_at,
        expires_at=kept.expires_at,
        idempotency_key=key,
        request_digest=digest,
    )
    session.add(row)
    session.flush()
    return kept


def _free_number(session: Session) -> str:
    """A number that is free, drawn among the shortest of which half are free, so that a draw soon hits one."""
    living = session.scalar(select(func.count()).select_from(TicketRow)) or 0
    for digits in DIGITS:
        first, many = 10 ** (digits - 1), 9 * 10 ** (digits - 1)
        if living * 2 >= many:
            continue
        for _ in range(DRAWS):
            number = str(first + secrets.randbelow(many))
            if session.get(TicketRow, number) is None:
                return number
    raise NoNumberLeft("Every ticket number is taken until the day ends.")


def _sweep(session: Session, now: str) -> None:
    session.execute(delete(TicketRow).where(TicketRow.expires_at <= now))


def _ticket(row: TicketRow) -> Ticket:
    told = json.loads(row.told)
    return Ticket(
        came_for=told["came_for"],
        language=told["language"],
        questions=tuple(told["questions"]),
        made_at=row.made_at,
        expires_at=row.expires_at,
        number=row.number,
    )


def _text(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
