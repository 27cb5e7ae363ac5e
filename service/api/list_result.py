"""Writes what a kept planting list came to, part by part, so that a long one needs little memory."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flask import Response
from werkzeug.exceptions import Conflict

from service.api.house import parts
from service.api.planting_list_written import sent_as
from service.domain.list_batch import Progress
from service.present.planting_list_out import MEDIA_TYPES, Format
from service.present.planting_list_parts import json_pieces, unpacked
from service.storage.list_progress import parts_of, told_of

MOST_IN_ONE_FILE = 50_000


def result_of(progress: Progress, form: Format) -> Response:
    """The result of a check that is done, in this form."""
    packed = told_of(parts().database, progress.check_id)
    if packed is None:
        raise Conflict("The check of this list is being done anew.")
    told = unpacked(packed)
    if form == "json":
        found = (part.told for part in parts_of(parts().database, progress.check_id))
        return Response(json_pieces(told, found), mimetype=MEDIA_TYPES[form])
    if progress.lines_done > MOST_IN_ONE_FILE:
        raise Conflict(f"The list has more than {MOST_IN_ONE_FILE:,} lines; take JSON, or page through its lines.")
    return sent_as(told, _lines(progress), form)


def _lines(progress: Progress) -> Iterator[dict[str, Any]]:
    for part in parts_of(parts().database, progress.check_id):
        yield from unpacked(part.told)
