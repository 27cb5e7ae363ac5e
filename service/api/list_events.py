"""Tells the progress of a check as server-sent events, as the browser's EventSource takes them.

A stream holds a thread of the web server, so few are open at once and each ends after a while; the browser then comes
back by itself, and sends the id of the event that it saw last.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator

import orjson
from flask import Response
from werkzeug.exceptions import ServiceUnavailable

from service.api.list_checks_told import progress_told
from service.domain.list_batch import Progress

LONGEST_S = 20.0
LOOKS_S = 0.5
BREATH_S = 5.0
COMES_BACK_MS = 1000
Look = Callable[[], Progress | None]


class Streams:
    """The streams that a process has open."""

    def __init__(self, most: int) -> None:
        self._free = threading.BoundedSemaphore(most)

    def response(self, look: Look, seen: str | None) -> Response:
        """A stream of progress; 503 where too many are open."""
        if not self._free.acquire(blocking=False):
            raise ServiceUnavailable("Too many progress streams are open; ask for the progress by GET.", retry_after=2)
        response = Response(events(look, seen), mimetype="text/event-stream")
        response.call_on_close(self._free.release)
        response.headers["Cache-Control"] = "no-store"
        response.headers["X-Accel-Buffering"] = "no"  # a proxy would hold the events back
        return response


def mark_of(progress: Progress) -> str:
    """The id of the event that tells this progress."""
    return f"{progress.number}.{progress.state}.{progress.lines_done}"


def events(look: Look, seen: str | None = None) -> Iterator[bytes]:
    """Events until the check has ended, the list is gone or the time is over; `seen` is the id of the last one."""
    yield f"retry: {COMES_BACK_MS}\n\n".encode()
    until = time.monotonic() + LONGEST_S
    told_at = time.monotonic()
    while (progress := look()) is not None:
        mark = mark_of(progress)
        if mark != seen:
            seen, told_at = mark, time.monotonic()
            kind = "ended" if progress.ended else "progress"
            told = orjson.dumps(progress_told(progress))
            yield b"id: %b\nevent: %b\ndata: %b\n\n" % (mark.encode(), kind.encode(), told)
        elif time.monotonic() - told_at > BREATH_S:
            told_at = time.monotonic()
            yield b": nothing new\n\n"
        if progress.ended or time.monotonic() > until:
            return
        time.sleep(LOOKS_S)

