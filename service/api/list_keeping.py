"""Keeps a planting list that is checked in its own time, and answers 202 with how far it is."""

from __future__ import annotations

from typing import Any

from flask import Response, request

from service.api.house import parts, written
from service.api.keeping import HEADER, idempotency_key
from service.api.list_checks_told import progress_told
from service.api.planting_list_sent import ListSent
from service.domain.errors import NotUnderstood
from service.domain.list_batch import Asking
from service.storage.consultations import KeyUsedOtherwise
from service.storage.list_progress import progress_of
from service.storage.planting_lists import keep_list, list_under, pieces_of

LATER = "respond-async"
PREFER_PARAMETER: dict[str, Any] = {
    "in": "header",
    "name": "Prefer",
    "required": False,
    "description": f"`{LATER}` keeps a list of any length and answers 202 (RFC 7240).",
    "schema": {"type": "string"},
    "example": LATER,
}
ACCEPTED_HEADERS = {
    "Location": {"description": "Where its progress stands.", "schema": {"type": "string"}},
    "Retry-After": {"description": "Seconds after which to look.", "schema": {"type": "integer"}},
}


def asked_for_later() -> bool:
    """Whether the client would rather not wait for the answer."""
    said = (part.split(";")[0].strip().lower() for part in request.headers.get("Prefer", "").split(","))
    return LATER in said


def kept_for_later(sent: ListSent) -> Response:
    """Keep the list with its check in the queue, once for each idempotency key; 202 with its progress."""
    database = parts().database
    try:
        asking = Asking(idempotency_key(), sent.digest())
        list_id = list_under(database, asking)
        if list_id is None:
            counted = sent.counted()
            sent.content.seek(0)
            list_id = keep_list(database, counted, pieces_of(sent.content), asking=asking)
    except KeyUsedOtherwise as fault:
        raise NotUnderstood((f"/{HEADER}", str(fault))) from None
    progress = progress_of(database, list_id)
    assert progress is not None
    response = written(progress_told(progress), 202)
    response.headers["Location"] = f"/v1/planting-lists/{list_id}"
    response.headers["Retry-After"] = "1"
    if asked_for_later():
        response.headers["Preference-Applied"] = LATER
    return response
