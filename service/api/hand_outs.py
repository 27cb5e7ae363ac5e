"""What a customer takes home: answers on a page that opens by its address alone, for a time."""

from __future__ import annotations

import hashlib
from datetime import UTC, datetime
from typing import Any, cast

from flask import request
from marshmallow import fields
from werkzeug.exceptions import NotFound

from service.api.answering import QUESTIONS, answer_of
from service.api.fields import Asked, Told, choice, list_of, nested, text
from service.api.house import KEY_PARAMETER, Resource, at_id, parts
from service.api.keeping import HEADER, idempotency_key
from service.domain.errors import NotUnderstood
from service.domain.hand_out import HandOut
from service.domain.units import Language
from service.present.hand_out import hand_out_sheet
from service.storage.consultations import KeyUsedOtherwise
from service.storage.hand_outs import hand_out_under, keep_hand_out, new_hand_out, open_hand_out

blueprint = Resource("hand-outs", "What a customer takes home: a page that opens by its address alone, for a time.")
_SECRET = at_id("secret", "The last part of the address of the page.", example="Zm9yLXRyeWluZy1pdC1vdQ")


class AnsweredAsked(Asked):
    """One question whose answer goes onto the sheet."""

    question = choice("Noun of the question, as in its address.", values=tuple(QUESTIONS), example="pruning-plans",
                      required=True)  # fmt: skip
    asked = fields.Dict(
        keys=fields.String(),
        required=True,
        metadata={"description": "The question as that address takes it as JSON.", "examples": [{"crop": "apple"}]},
        error_messages={"invalid": "This must be an object."},
    )


class HandOutAsked(Asked):
    """The questions whose answers are handed out."""

    questions = nested(AnsweredAsked, "The questions, in the order of the sheet.", many=True, least=1, most=12,
                       required=True, example=[{"question": "pruning-plans", "asked": {"crop": "apple"}}])  # fmt: skip
    language = choice("Language of the sheet.", values=("en", "es"))


class BlockTold(Told):
    """Lines under a heading."""

    heading = text("The heading.", example="What to do", required=True)
    kind = choice("Whether the lines are steps in order.", values=("steps", "lines"), required=True)
    lines = list_of(text("A line.", example="Take out dead wood.", longest=20_000), "The lines.",
                    example=["Take out dead wood."], required=True)  # fmt: skip


class TopicTold(Told):
    """The answer to one question."""

    question = choice("Noun of the question.", values=tuple(QUESTIONS), required=True)
    title = text("Its title.", example="Pruning: apple", required=True)
    text_ = text("What it comes to.", example="Prune it in late winter.", longest=20_000, nullable=True, required=True)
    blocks = nested(BlockTold, "What follows.", many=True, required=True)


class SheetTold(Told):
    """The sheet. It holds what was answered, and nothing of who asked or of what was typed."""

    language = choice("Language.", values=("en", "es"), required=True)
    title = text("Title.", example="Advice for your fruit trees", required=True)
    made_on = text("Day on which it was made.", example="2026-03-20", required=True)
    rulebook = text("Digest of the rulebook that answered.", example="9f8e", required=True)
    topics = nested(TopicTold, "One a question.", many=True, required=True)
    cautions = list_of(text("A caution.", example="Stand the ladder firmly.", longest=2000),
                       "What must be seen with it.", example=["Stand the ladder firmly."], required=True)  # fmt: skip
    sources = list_of(text("A publication.", example="Pruning fruit trees, University extension", longest=2000),
                      "Who says so.", example=["Pruning fruit trees, University extension"], required=True)  # fmt: skip


class HandOutTold(Told):
    """A hand-out and where it is opened."""

    link = text("Address of the page, for the customer's phone.", example="https://trees.example/h/Zm9yLXRyeWlu",
                longest=2000, required=True)  # fmt: skip
    page = text("The page, seen from this service.", example="/h/Zm9yLXRyeWlu", required=True)
    pdf = text("The same as a PDF.", example="/h/Zm9yLXRyeWlu/sheet.pdf", required=True)
    calendar = text("Its dates as text/calendar; null where it has none.", example="/h/Zm9yLXRyeWlu/dates.ics",
                    nullable=True, required=True)  # fmt: skip
    code = text("The address as a code for the camera of a phone (SVG).", example="/h/Zm9yLXRyeWlu/code.svg",
                required=True)  # fmt: skip
    expires_at = text("When it is deleted (UTC).", example="2026-04-19T10:51:40Z", required=True)
    sheet = nested(SheetTold, "What stands on it.", required=True)


@blueprint.route("/hand-outs", methods=["POST"])
@blueprint.asks(HandOutAsked)
@blueprint.answers(HandOutTold, status=201)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(parameters=[KEY_PARAMETER])  # type: ignore[untyped-decorator]
def make_hand_out(asked: dict[str, Any]) -> dict[str, Any]:
    """Make a hand-out.

    The questions are asked once more, and what is told goes onto a sheet under an address that nobody can guess.
    Whoever has the address can open it until it expires; then it is deleted. The sheet says nothing of who asked:
    it is made of the answers alone. With an Idempotency-Key the same request sent again leads to the same sheet.
    """
    database, key = parts().database, idempotency_key()
    digest = hashlib.sha256(request.get_data(cache=True)).hexdigest()
    try:
        earlier = hand_out_under(database, key, digest) if key else None
        return told(earlier or keep_hand_out(database, _made(asked), key=key, digest=digest))
    except KeyUsedOtherwise as fault:
        raise NotUnderstood((f"/{HEADER}", str(fault))) from None


@blueprint.route("/hand-outs/<secret>", parameters=[_SECRET])
@blueprint.answers(HandOutTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_hand_out(secret: str) -> dict[str, Any]:
    """Show a hand-out as data.

    The same that its page shows, for as long as that opens.
    """
    return told(opened(secret))


def opened(secret: str) -> HandOut:
    """The hand-out that the secret opens; NotFound where it opens none, or none any more."""
    found = open_hand_out(parts().database, secret, now=datetime.now(UTC))
    if found is None:
        raise NotFound("No hand-out opens by this address, or it has expired and was deleted.")
    return found


def link_of(made: HandOut) -> str:
    """The address of its page as a phone outside reaches it."""
    outside = parts().settings.public_address or request.host_url
    return f"{outside.rstrip('/')}/h/{made.secret}"


def told(made: HandOut) -> dict[str, Any]:
    """A hand-out as the document describes it."""
    page = f"/h/{made.secret}"
    sheet = {name: value for name, value in made.sheet.items() if name != "dated"}
    return {
        "link": link_of(made),
        "page": page,
        "pdf": f"{page}/sheet.pdf",
        "calendar": f"{page}/dates.ics" if made.sheet["dated"] else None,
        "code": f"{page}/code.svg",
        "expires_at": made.expires_at,
        "sheet": sheet,
    }


def _made(asked: dict[str, Any]) -> HandOut:
    language = cast(Language, asked.get("language") or "en")
    answered = [
        (one["question"], answer_of(one["question"], {**one["asked"], "language": language}, below=f"/questions/{at}"))
        for at, one in enumerate(asked["questions"])
    ]
    now = datetime.now(UTC)
    sheet = hand_out_sheet(answered, on=now.date(), language=language)
    return new_hand_out(sheet, now=now, days=parts().settings.hand_out_days)
