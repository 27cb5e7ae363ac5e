"""Keeps hand-outs until they expire. What has expired is deleted, at the latest when the next one is made or opened."""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.exc import IntegrityError

from service.domain.hand_out import HandOut
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.tables import HandOutRow

SECRET_BYTES = 16


def new_hand_out(sheet: Mapping[str, Any], *, now: datetime, days: int) -> HandOut:
    """A hand-out under a new secret that nobody can guess."""
    return HandOut(secrets.token_urlsafe(SECRET_BYTES), sheet, _text(now), _text(now + timedelta(days=days)))


def keep_hand_out(database: Database, made: HandOut, *, key: str | None, digest: str) -> HandOut:
    """Store it, and sweep; when a request with the same key was faster, give back what that one stored."""
    sweep(database, datetime.fromisoformat(made.made_at))
    row = HandOutRow(
        secret=made.secret,
        sheet=json.dumps(made.sheet),
        made_at=made.made_at,
        expires_at=made.expires_at,
        idempotency_key=key,
        request_digest=digest,
    )
    try:
        with database.writing() as session:
            session.add(row)
    except IntegrityError:
        earlier = hand_out_under(database, key or "", digest)
        if earlier is None:
            raise
        return earlier
    return made


def hand_out_under(database: Database, key: str, digest: str) -> HandOut | None:
    """What was made under an idempotency key; raises KeyUsedOtherwise when the request then was another."""
    with database.reading() as session:
        row = session.scalar(select(HandOutRow).where(HandOutRow.idempotency_key == key))
        if row is not None and row.request_digest != digest:
            raise KeyUsedOtherwise("This key was used before with another request; take a new one.")
        return _hand_out(row) if row else None


def open_hand_out(database: Database, secret: str, *, now: datetime) -> HandOut | None:
    """The hand-out that the secret opens; one that has expired is deleted and opens for nobody."""
    with database.reading() as session:
        row = session.get(HandOutRow, secret)
        found = _hand_out(row) if row else None
    if found is None or found.expires_at > _text(now):
        return found
    sweep(database, now)
    return None


def sweep(database: Database, now: datetime) -> int:
    """Delete every hand-out that has expired; says how many there were."""
    with database.writing() as session:
        gone = session.execute(delete(HandOutRow).where(HandOutRow.expires_at <= _text(now)))
        return int(gone.rowcount)  # type: ignore[attr-defined]


def _hand_out(row: HandOutRow) -> HandOut:
    return HandOut(row.secret, json.loads(row.sheet), row.made_at, row.expires_at)


def _text(moment: datetime) -> str:
    return moment.astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
