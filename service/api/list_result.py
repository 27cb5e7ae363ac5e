"""Writes what a kept planting list came to, part by part, so that a long one needs little memory."""

from __future__ import annotations

from collections.abc import Iterator

from flask import Response
from werkzeug.exceptions import Conflict

from service.api.house import parts
from service.domain.list_batch import Progress
from service.present.planting_list_parts import json_pieces, unpacked
from service.storage.list_progress import parts_of, told_of


def result_of(progress: Progress) -> Response:
    """The result of a check that is done."""
    database = parts().database
    packed = told_of(database, progress.check_id)
    if packed is None:
        raise Conflict("The check of this list is being done anew.")
    found = (part.told for part in parts_of(database, progress.check_id))
    return _sent(json_pieces(unpacked(packed), found))


def _sent(pieces: Iterator[bytes]) -> Response:
    response = Response(pieces, mimetype="application/json")
    response.headers["Cache-Control"] = "no-store"
    return response
