"""Planting lists that are kept and checked in their own time: how far they are, what they came to, and their end."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from flask import Response, request
from werkzeug.exceptions import Conflict, NotFound

from service.api.house import Resource, at_id, parts
from service.api.list_checks_told import (
    ID,
    CheckedLinesTold,
    LinesAsked,
    ListChecksTold,
    ListCheckTold,
    ResultAsked,
    progress_told,
)
from service.api.list_events import Streams, mark_of
from service.api.list_result import result_of
from service.api.paging import USUAL, PageAsked, after_of, cursor_after
from service.api.planting_list_written import ALSO_WRITTEN, format_wanted
from service.api.planting_lists import ADVICE
from service.domain.errors import NotUnderstood
from service.domain.list_batch import Progress
from service.present.planting_list_parts import PART_LINES, unpacked
from service.storage.list_progress import EndedAlready, cancel, lists_after, parts_of, progress_of
from service.storage.planting_lists import remove_list

blueprint = Resource("list-checks", "Planting lists that are checked in their own time.")
LIST = at_id("planting_list", "Id of the list.", example=ID)
EVENTS = "text/event-stream"
MOST_STREAMS = 2  # each holds a thread of the web server, which has four where nobody says otherwise
EXAMPLE = {"id": "1.running.1500", "event": "progress", "data": '{"state": "running", "lines_done": 1500}'}
ONE_EVENT = {
    "type": "object",
    "properties": {
        "id": {"type": "string", "description": "What Last-Event-ID brings back."},
        "event": {"type": "string", "enum": ["progress", "ended"]},
        "data": {"type": "string", "contentMediaType": "application/json", "description": "As GET of the list."},
        "retry": {"type": "string", "description": "Milliseconds after which to come back."},
    },
}
streams = Streams(MOST_STREAMS)


@blueprint.route("/planting-lists")
@blueprint.asks_in_query(PageAsked)
@blueprint.answers(ListChecksTold)
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def list_planting_lists(query: dict[str, Any]) -> dict[str, Any]:
    """List the kept planting lists.

    Each with its newest check, in the order of their ids.
    """
    limit = query.get("limit") or USUAL
    after = after_of(query["cursor"]) if query.get("cursor") else ""
    found = lists_after(parts().database, after, limit + 1)
    more = cursor_after(found[limit - 1].list_id) if len(found) > limit else None
    return {"items": [progress_told(one) for one in found[:limit]], "next_cursor": more}


@blueprint.route("/planting-lists/<planting_list>", parameters=[LIST])
@blueprint.answers(ListCheckTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def get_list_check(planting_list: str) -> dict[str, Any]:
    """Tell how far the check of a kept planting list is.

    A line that is counted here is stored with its verdict, and stays so whatever happens to the service.
    """
    return progress_told(_known(planting_list))


@blueprint.route("/planting-lists/<planting_list>", methods=["DELETE"], parameters=[LIST])
@blueprint.response(204, description="It is gone.")  # type: ignore[untyped-decorator]
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def remove_planting_list(planting_list: str) -> Response:
    """Remove a kept planting list.

    What was sent goes, with everything that was found; a check that runs stops.
    """
    if not remove_list(parts().database, planting_list):
        raise _unknown()
    return Response(status=204)


@blueprint.route("/planting-lists/<planting_list>/cancellations", methods=["POST"], parameters=[LIST])
@blueprint.answers(ListCheckTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def cancel_list_check(planting_list: str) -> dict[str, Any]:
    """Call off the check of a kept planting list.

    Lines that are checked already can still be read. A check that has ended cannot be called off.
    """
    try:
        progress = cancel(parts().database, planting_list)
    except EndedAlready as fault:
        raise Conflict(str(fault)) from None
    if progress is None:
        raise _unknown()
    return progress_told(progress)


@blueprint.route("/planting-lists/<planting_list>/events", parameters=[LIST])
@blueprint.response(
    200, ONE_EVENT, content_type=EVENTS, description="Progress until the check ends, event by event.", example=EXAMPLE
)  # type: ignore[untyped-decorator]
@blueprint.also_answers(204, description="You have seen how it ended (Last-Event-ID).")
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def follow_list_check(planting_list: str) -> Response:
    """Follow the check of a kept planting list as server-sent events.

    Each event `progress` carries what GET of the list answers, and `ended` the last of it. A stream ends by itself
    after some twenty seconds; a browser comes back then and goes on. Where too many follow at once, ask by GET.
    """
    progress = _known(planting_list)
    seen = request.headers.get("Last-Event-ID")
    if progress.ended and seen == mark_of(progress):
        return Response(status=204)
    database = parts().database
    return streams.response(lambda: progress_of(database, planting_list), seen)


@blueprint.route("/planting-lists/<planting_list>/lines", parameters=[LIST])
@blueprint.asks_in_query(LinesAsked)
@blueprint.answers(CheckedLinesTold)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
def page_checked_lines(query: dict[str, Any], planting_list: str) -> dict[str, Any]:
    """Page through the checked lines of a kept planting list.

    They can be read while the check goes on.
    """
    progress = _known(planting_list)
    limit = query.get("limit") or USUAL
    start = _line_of(query["cursor"]) if query.get("cursor") else 0
    lines = list(_lines(progress, start, limit + 1))
    more = cursor_after(str(start + limit)) if len(lines) > limit else None
    return {"items": lines[:limit], "next_cursor": more}


@blueprint.route("/planting-lists/<planting_list>/result", parameters=[LIST])
@blueprint.asks_in_query(ResultAsked)
@blueprint.answers(ADVICE)
@blueprint.also_answers(404, "NOT_FOUND")
@blueprint.also_answers(406, "NOT_ACCEPTABLE")
@blueprint.also_answers(409, "CONFLICT")
@blueprint.also_answers(503, "SERVICE_UNAVAILABLE")
@blueprint.doc(responses={200: ALSO_WRITTEN})  # type: ignore[untyped-decorator]
def get_list_result(query: dict[str, Any], planting_list: str) -> Response:
    """Download what a kept planting list came to.

    The same as the answer on a list that is checked at once. A list of more than 500 lines has no sketch, chart,
    addition and repair, and its conclusions on lines stand as findings at each line alone. Before the check is done
    this is a conflict. It comes in the format that is accepted (`Accept`) or named in the address.
    """
    progress = _known(planting_list)
    if progress.state != "done":
        raise Conflict(f"The check of this list is not done; it is {progress.state}.")
    return result_of(progress, query.get("format") or format_wanted())


def _known(planting_list: str) -> Progress:
    progress = progress_of(parts().database, planting_list)
    if progress is None:
        raise _unknown()
    return progress


def _unknown() -> NotFound:
    return NotFound("No planting list is kept under this id.")


def _line_of(cursor: str) -> int:
    line = after_of(cursor)
    if not (line.isascii() and line.isdigit() and len(line) < 10):
        raise NotUnderstood(("/cursor", "This is not a cursor that this service gave."))
    return int(line)


def _lines(progress: Progress, start: int, most: int) -> Iterator[dict[str, Any]]:
    """Lines from one on; every part but the last has the same number of them."""
    number, skip = divmod(start, PART_LINES)
    for part in parts_of(parts().database, progress.check_id, first=number):
        for line in unpacked(part.told)[skip:]:
            if most == 0:
                return
            most -= 1
            yield line
        skip = 0
