"""A simple drawing of each sign, so that a customer points instead of reading."""

from __future__ import annotations

from typing import Any

from flask import Response
from werkzeug.exceptions import NotFound

from service.api.fields import AskedInQuery, choice
from service.api.house import Resource, at_id, parts
from service.present.drawings import drawing_of

blueprint = Resource("sign-drawings", "A line drawing of each sign.")
SVG = "image/svg+xml"


class DrawingAsked(AskedInQuery):
    """How the drawing is titled."""

    language = choice("Language of its title.", values=("en", "es"))


@blueprint.route("/signs/<sign>/drawing", parameters=[at_id("sign", "Id of a sign.", example="lf_shothole")])
@blueprint.asks_in_query(DrawingAsked)
@blueprint.reference({"type": "string"}, content_type=SVG, description="The drawing as SVG.")
@blueprint.also_answers(404, "NOT_FOUND")
def draw_sign(asked: dict[str, Any], sign: str) -> Response:
    """Draw one sign.

    A line drawing in one colour, the colour of the text around it where it stands in a page.
    """
    found = parts().rulebook.catalogue.signs.get(sign)
    if found is None:
        raise NotFound("No sign has this id; GET /v1/signs lists them.")
    title = found.name_es if asked.get("language") == "es" else found.name
    return Response(drawing_of(found.id, found.part, title=title), mimetype=SVG)
