"""Progress as server-sent events: what is new is told once, and few streams are open at a time."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from werkzeug.exceptions import ServiceUnavailable

from service.api import list_events
from service.api.list_events import Streams, events
from service.domain.list_batch import Progress, State


def progress(state: State, lines: int) -> Progress:
    return Progress("l", "c", 1, state, sent_at="now", asked_at="now", lines_done=lines)


@pytest.fixture(autouse=True)
def _no_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(list_events, "LOOKS_S", 0.0)


def told(*seen: Progress | None, last: str | None = None) -> list[tuple[str, str]]:
    """The ids and kinds of the events when these are seen one after the other."""
    looks: Iterator[Progress | None] = iter(seen)
    found = []
    for event in b"".join(events(lambda: next(looks), last)).decode().split("\n\n"):
        fields = dict(line.split(": ", 1) for line in event.splitlines() if ": " in line)
        if "event" in fields:
            found.append((fields["id"], fields["event"]))
    return found


def test_what_is_new_is_told_once_until_it_ends() -> None:
    seen = (progress("waiting", 0), progress("running", 500), progress("running", 500), progress("done", 700))
    assert told(*seen) == [("1.waiting.0", "progress"), ("1.running.500", "progress"), ("1.done.700", "ended")]


def test_who_comes_back_is_told_only_what_came_since() -> None:
    seen = (progress("running", 500), progress("cancelled", 500))
    assert told(*seen, last="1.running.500") == [("1.cancelled.500", "ended")]


def test_the_stream_ends_when_the_list_is_removed() -> None:
    assert told(progress("running", 500), None) == [("1.running.500", "progress")]


def test_the_stream_ends_after_a_while(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(list_events, "LONGEST_S", -1.0)
    assert told(progress("running", 500)) == [("1.running.500", "progress")]


def test_too_many_streams_are_sent_away_until_one_is_closed() -> None:
    streams = Streams(1)
    first = streams.response(lambda: None, None)
    with pytest.raises(ServiceUnavailable):
        streams.response(lambda: None, None)
    first.close()
    streams.response(lambda: None, None).close()
