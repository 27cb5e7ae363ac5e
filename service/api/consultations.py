"""Consultations that were kept because the question said so."""

from __future__ import annotations

from typing import Any

from marshmallow import fields
from werkzeug.exceptions import NotFound

from service.api.fields import Told, text
from service.api.house import Resource, at_id, parts
from service.storage.consultations import find

blueprint = Resource("consultations", "Answers that were kept, with the question and the digest of the rulebook.")


class ConsultationTold(Told):
    """A kept consultation."""

    id = text("Id of the consultation.", example="60a70913bcc04df48aa24f28a6a297b2", required=True)
    question = text("Noun of the question, as in its address.", example="variety-suggestions", required=True)
    asked = fields.Dict(
        required=True,
        metadata={
            "description": "The question as it was sent.",
            "examples": [{"site": {"hardiness_zone": "7b"}, "keep": True}],
        },
    )
    answer = fields.Dict(
        required=True,
        metadata={"description": "The answer as it was given.", "examples": [{"rulebook": "9f8e", "answer": {}}]},
    )
    rulebook = text("Digest of the rulebook that answered.", example="9f8e", required=True)
    kept_at = text("When it was kept (UTC).", example="2026-11-25T10:51:40Z", required=True)


@blueprint.route(
    "/consultations/<consultation>",
    parameters=[
        at_id("consultation", "Id that the kept answer carried.", example="60a70913bcc04df48aa24f28a6a297b2"),
    ],
)
@blueprint.answers(ConsultationTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_consultation(consultation: str) -> dict[str, Any]:
    """Show a kept consultation.

    The question, the answer and the digest of the rulebook: asked again of the same rulebook, it answers the same.
    """
    kept = find(parts().database, consultation)
    if kept is None:
        raise NotFound("No consultation is kept under this id.")
    return {name: getattr(kept, name) for name in ("id", "question", "asked", "answer", "rulebook", "kept_at")}
