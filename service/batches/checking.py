"""Does one check of a planting list, from wherever it stands to its end."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import IO, TypeVar, cast

import structlog
from flask import Flask

from service.api.planting_list_asked import place_of, read_terms
from service.domain.errors import NotUnderstood
from service.domain.list_batch import ListEnd, Part, Work
from service.domain.units import Language
from service.parts import Parts
from service.present.planting_list_parts import Desk, ListInParts, packed
from service.questions.planting_list import list_reader, stream_of
from service.questions.suggestion import Judges
from service.storage.database import Database, DatabaseAway
from service.storage.list_checks import TakenByAnother, add_part, fail, finish, put_back, take, tallies
from service.storage.planting_lists import copy_content
from service.storage.stock import stock_of

IN_MEMORY_BYTES = 4 * 1024 * 1024
PATIENCE_S, PAUSE_S = 60.0, 0.5
Stop = Callable[[], bool]
Done = TypeVar("Done")
log = structlog.get_logger("fruitwright.lists")


class Stopped(Exception):
    """The check was left to another, because this process is asked to stop."""


def check(app: Flask, check_id: str, stop: Stop) -> None:
    """Go on with a check until it ends; Stopped where `stop` says so between two parts."""
    parts: Parts = app.extensions["fruitwright"]
    work = patiently(lambda: take(parts.database, check_id, parts.rulebook.digest))
    if work is None:
        return
    with app.app_context():
        try:
            _Check(parts, work, stop).run()
        except TakenByAnother:
            log.info("list left", check=check_id, attempt=work.attempt)
        except NotUnderstood as fault:
            faults = fault.faults
            with _unless_taken():
                patiently(lambda: fail(parts.database, work, faults))


def patiently(act: Callable[[], Done]) -> Done:
    """Do it; while the database is away, try again for a while."""
    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            return act()
        except DatabaseAway:
            if time.monotonic() >= until:
                raise
            time.sleep(PAUSE_S)


@contextmanager
def _unless_taken() -> Iterator[None]:
    try:
        yield
    except TakenByAnother:
        return


class _Check:
    def __init__(self, parts: Parts, work: Work, stop: Stop) -> None:
        self.parts, self.work, self.stop = parts, work, stop
        self.database: Database = parts.database

    def run(self) -> None:
        with tempfile.SpooledTemporaryFile(IN_MEMORY_BYTES) as file:
            patiently(lambda: self._copied(file))
            checking = self._checking(file)
            last = self._all_but_last(checking)
            whole = list(patiently(lambda: list(tallies(self.database, self.work.check_id))))
            told, verdict = checking.whole([*whole, *([] if last is None else [last.tally])])
            end = ListEnd(packed(told), verdict, last)
            patiently(lambda: finish(self.database, self.work, end))
        log.info("list checked", check=self.work.check_id, attempt=self.work.attempt, verdict=verdict)

    def _copied(self, file: IO[bytes]) -> None:
        file.seek(0)
        file.truncate()
        copy_content(self.database, self.work.list_id, file)  # type: ignore[arg-type]
        file.seek(0)

    def _checking(self, file: IO[bytes]) -> ListInParts:
        rulebook, terms = self.parts.rulebook, read_terms(self.work.sent.terms)
        place = replace(place_of(terms), stock=patiently(lambda: stock_of(self.database)))
        stream = stream_of(self.work.sent, file, list_reader(rulebook))  # type: ignore[arg-type]
        judges = Judges(sweeping=self.parts.sweeping, asking=self.parts.asking)
        return ListInParts(stream, place, Desk(rulebook, judges, cast(Language, terms.get("language") or "en")))

    def _all_but_last(self, checking: ListInParts) -> Part | None:
        """Write the parts; the last one is given back, to be written with the end of the check."""
        last: Part | None = None
        for part in checking.parts(done=self.work.parts_done, lines_done=self.work.lines_done):
            if last is not None:
                self._write(last)
            last = part
        return last

    def _write(self, part: Part) -> None:
        patiently(lambda: add_part(self.database, self.work, part))
        if self.stop():
            put_back(self.database, self.work)
            raise Stopped
