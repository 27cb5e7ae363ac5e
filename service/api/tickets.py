"""Tickets: what a customer told at a kiosk, under a short number that opens it at the counter on the same day."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any
from zoneinfo import ZoneInfo

import marshmallow as ma
from flask import request
from werkzeug.exceptions import NotFound, ServiceUnavailable

from service.api.answering import QUESTIONS
from service.api.fields import Asked, Told, choice, nested, text
from service.api.house import KEY_PARAMETER, Resource, at_id, parts
from service.api.keeping import HEADER, idempotency_key
from service.api.place import pointing_below
from service.api.pointers import faults_of
from service.domain.errors import NotUnderstood
from service.domain.ticket import CAME_FOR, Ticket, end_of_day
from service.storage.consultations import KeyUsedOtherwise
from service.storage.tickets import NoNumberLeft, keep_ticket, new_ticket, open_ticket

blueprint = Resource("tickets", "What a customer told at a kiosk, under a short number for the counter.")
OF_KIOSKS = ("variety-suggestions", "thinning-plans", "pruning-plans", "season-plans", "diagnoses",
             "treatment-pointers")  # fmt: skip
MOST_BYTES = 20_000
_SHAPE = re.compile(r"[1-9][0-9]{2,5}")
NOT_KEPT = ("keep", "language")
_NUMBER = at_id("number", "Number of the ticket.", example="417")


class TicketQuestionAsked(Asked):
    """One question that goes to the counter."""

    question = choice("Noun of the question, as in its address.", values=OF_KIOSKS, example="diagnoses", required=True)
    asked = ma.fields.Dict(
        keys=ma.fields.String(),
        required=True,
        metadata={"description": "The question as that address takes it as JSON.", "examples": [{"crop": "peach"}]},
        error_messages={"invalid": "This must be an object."},
    )


class TicketAsked(Asked):
    """What the customer told. Nothing in it may name a person."""

    came_for = choice("What they came for: to choose a tree, for their tree as it is now, or because something is"
                      " wrong.", values=CAME_FOR, example="trouble", required=True)  # fmt: skip
    questions = nested(TicketQuestionAsked, "The questions, the first of them to be opened first.", many=True, least=1,
                       most=4, required=True,
                       example=[{"question": "diagnoses", "asked": {"crop": "peach"}}])  # fmt: skip
    language = choice("Language that the customer chose.", values=("en", "es"))


class TicketQuestionTold(Told):
    """One question."""

    question = choice("Noun of the question, as in its address.", values=OF_KIOSKS, example="diagnoses", required=True)
    asked = ma.fields.Dict(
        keys=ma.fields.String(),
        required=True,
        metadata={"description": "The question as that address takes it.", "examples": [{"crop": "peach"}]},
    )


class TicketTold(Told):
    """A ticket."""

    number = text("Its number, to be called out at the counter.", example="417", required=True)
    came_for = choice("What they came for.", values=CAME_FOR, example="trouble", required=True)
    language = choice("Language that the customer chose.", values=("en", "es"), required=True)
    made_at = text("When it was made (UTC).", example="2026-03-20T17:51:40Z", required=True)
    expires_at = text("When it is deleted (UTC): as the day of the store ends.", example="2026-03-21T07:00:00Z",
                      required=True)  # fmt: skip
    questions = nested(TicketQuestionTold, "The questions.", many=True, required=True)


@blueprint.route("/tickets", methods=["POST"])
@blueprint.asks(TicketAsked)
@blueprint.answers(TicketTold, status=201)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(parameters=[KEY_PARAMETER])  # type: ignore[untyped-decorator]
def make_ticket(asked: dict[str, Any]) -> dict[str, Any]:
    """Make a ticket.

    It holds the questions as they were asked and no answer, so that the counter asks them anew and sees what a kiosk
    does not show. The number is free again when the day of the store ends. With an Idempotency-Key the same request
    sent again leads to the same ticket.
    """
    digest = hashlib.sha256(request.get_data(cache=True)).hexdigest()
    try:
        return told(keep_ticket(parts().database, _made(asked), key=idempotency_key(), digest=digest))
    except KeyUsedOtherwise as fault:
        raise NotUnderstood((f"/{HEADER}", str(fault))) from None
    except NoNumberLeft as fault:
        raise ServiceUnavailable(str(fault)) from None


@blueprint.route("/tickets/<number>", parameters=[_NUMBER])
@blueprint.answers(TicketTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_ticket(number: str) -> dict[str, Any]:
    """Open a ticket.

    At the counter, with the number that the customer calls out. A kiosk cannot open tickets.
    """
    found = open_ticket(parts().database, number, now=datetime.now(UTC)) if _SHAPE.fullmatch(number) else None
    if found is None:
        raise NotFound("No ticket of today has this number.")
    return told(found)


def told(ticket: Ticket) -> dict[str, Any]:
    """A ticket as the document describes it."""
    return {
        "number": ticket.number,
        "came_for": ticket.came_for,
        "language": ticket.language,
        "made_at": ticket.made_at,
        "expires_at": ticket.expires_at,
        "questions": list(ticket.questions),
    }


def _made(asked: dict[str, Any]) -> Ticket:
    questions = asked["questions"]
    if len(json.dumps(questions)) > MOST_BYTES:
        raise NotUnderstood(("/questions", f"A ticket holds at most {MOST_BYTES} bytes."))
    for place, one in enumerate(questions):
        _check(one["question"], one["asked"], below=f"/questions/{place}/asked")
    bare = [{"question": one["question"], "asked": _without(one["asked"])} for one in questions]
    zone, now = parts().settings.time_zone, datetime.now(UTC)
    ends = end_of_day(now, None if zone is None else ZoneInfo(zone))
    return new_ticket(asked["came_for"], asked.get("language") or "en", bare, life=(now, ends))


def _without(asked: Mapping[str, Any]) -> dict[str, Any]:
    """The question without what only the kiosk wanted of its answer."""
    return {name: value for name, value in asked.items() if name not in NOT_KEPT}


def _check(question: str, asked: Mapping[str, Any], *, below: str) -> None:
    with pointing_below(below):
        try:
            QUESTIONS[question][0]().load(asked)
        except ma.ValidationError as error:
            raise NotUnderstood(*faults_of({"json": error.messages})) from None
