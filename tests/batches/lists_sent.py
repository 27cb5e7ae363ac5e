"""Lists for the tests of batches, and what they must come to when nothing goes wrong."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from flask import Flask

from service.api.planting_list_asked import place_of, read_terms
from service.domain.list_batch import Asking, Progress, SentList
from service.parts import Parts
from service.present.planting_list_parts import Desk, ListInParts, unpacked
from service.questions.planting_list import list_reader, stream_of
from service.questions.suggestion import Judges
from service.settings import CHECKOUT
from service.storage.database import Database
from service.storage.list_progress import parts_of, progress_of
from service.storage.planting_lists import keep_list, pieces_of

TERMS = {"site": {"hardiness_zone": "7b", "chill_hours": 900}}
NAMES = ("Honeycrisp apple", "Elberta peach", "Bartlett pear", "Liberty aple", "Nobody knows", "Gala", "Montmorency")
PATIENCE_S = 300.0


def rows(count: int) -> bytes:
    """A list with so many lines, no two of them alike."""
    named = (NAMES[number % len(NAMES)] for number in range(count))
    lines = (f"{1 + number % 9},{name},row {number}" for number, name in enumerate(named))
    return "\n".join(("qty,variety,notes", *lines)).encode()


def keep(database: Database, content: bytes, *, key: str | None = None, digest: str = "") -> str:
    """Keep a list as the API does; its id."""
    sent = SentList("file", TERMS, "list.csv", content.count(b"\n"))
    return keep_list(database, sent, pieces_of(io.BytesIO(content)), asking=Asking(key, digest))


def undisturbed(app: Flask, content: bytes) -> list[dict[str, Any]]:
    """The lines as they are told where nothing interrupts the check."""
    parts: Parts = app.extensions["fruitwright"]
    with app.app_context():
        place = place_of(read_terms(TERMS))
    sent = SentList("file", TERMS, "list.csv")
    stream = stream_of(sent, io.BytesIO(content), list_reader(parts.rulebook))
    desk = Desk(parts.rulebook, Judges(sweeping=parts.sweeping, asking=parts.asking))
    return [line for part in ListInParts(stream, place, desk).parts() for line in unpacked(part.told)]


def stored(database: Database, progress: Progress) -> list[dict[str, Any]]:
    """The lines that are stored of a check."""
    return [line for part in parts_of(database, progress.check_id) for line in unpacked(part.told)]


def as_json(lines: list[dict[str, Any]]) -> list[str]:
    """Lines, so that they can be compared."""
    return [json.dumps(line, sort_keys=True) for line in lines]


def wait_for(database: Database, list_id: str, reached: Callable[[Progress], bool]) -> Progress:
    """Wait until a check has come so far."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        progress = progress_of(database, list_id)
        assert progress is not None
        if reached(progress):
            return progress
        time.sleep(0.02)
    raise AssertionError(f"not reached: {progress}")


@contextmanager
def worker(database: Database, *options: str) -> Iterator[subprocess.Popen[bytes]]:
    """A worker in a process of its own; ended at the end, should it still run."""
    address = database.engine.url.render_as_string(hide_password=False)
    kept = {name: value for name, value in os.environ.items() if not name.startswith("FRUITWRIGHT_")}
    settings = {"FRUITWRIGHT_DATABASE_URL": address.replace("+psycopg", ""), "FRUITWRIGHT_MATCHER": "plain"}
    command = [sys.executable, "-m", "service.cli", "worker", *options]
    process = subprocess.Popen(command, cwd=CHECKOUT, env={**kept, **settings})
    try:
        yield process
    finally:
        if process.poll() is None:
            process.kill()
        process.wait()
