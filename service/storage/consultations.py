"""Keeps consultations and finds them again."""

from __future__ import annotations

import json
import uuid
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from sqlalchemy.exc import IntegrityError

from service.domain.consultation import Consultation
from service.domain.errors import FruitwrightError
from service.storage.database import Database
from service.storage.tables import ConsultationRow, KeyRow


class KeyUsedOtherwise(FruitwrightError):
    """An idempotency key came back with another request."""


def new_consultation(
    question: str, *, asked: Mapping[str, Any], answer: Mapping[str, Any], rulebook: str
) -> Consultation:
    """A consultation with an id of its own and the time of now."""
    now = datetime.now(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
    return Consultation(uuid.uuid4().hex, question, asked, answer, rulebook, now)


def keep(database: Database, consultation: Consultation, *, key: str | None, digest: str) -> Consultation:
    """Store a consultation; when another request with the same key was faster, give back what that one stored."""
    try:
        with database.writing() as session:
            session.add(_row(consultation))
            session.flush()
            if key is not None:
                session.add(KeyRow(key=key, request_digest=digest, consultation_id=consultation.id))
    except IntegrityError:
        earlier = kept_under(database, key or "", digest)
        if earlier is None:
            raise
        return earlier
    return consultation


def kept_under(database: Database, key: str, digest: str) -> Consultation | None:
    """What was kept under an idempotency key; raises KeyUsedOtherwise when the request then was another."""
    with database.reading() as session:
        found = session.get(KeyRow, key)
        if found is None:
            return None
        if found.request_digest != digest:
            raise KeyUsedOtherwise("This key was used before with another request; take a new one.")
        row = session.get(ConsultationRow, found.consultation_id)
        return _consultation(row) if row else None


def find(database: Database, consultation_id: str) -> Consultation | None:
    """The kept consultation of this id."""
    with database.reading() as session:
        row = session.get(ConsultationRow, consultation_id)
        return _consultation(row) if row else None


def _row(kept: Consultation) -> ConsultationRow:
    return ConsultationRow(
        id=kept.id,
        question=kept.question,
        asked=json.dumps(kept.asked),
        answer=json.dumps(kept.answer),
        rulebook=kept.rulebook,
        kept_at=kept.kept_at,
    )


def _consultation(row: ConsultationRow) -> Consultation:
    asked, answer = json.loads(row.asked), json.loads(row.answer)
    return Consultation(row.id, row.question, asked, answer, row.rulebook, row.kept_at)
