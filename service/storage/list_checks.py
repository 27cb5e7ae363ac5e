"""The work on checks of planting lists: whoever takes a check may write its parts until another takes it.

Each part is written in one transaction with the mark of how far the check is. A part is written only by the one who
took the check last, and only as the next one: so no line is done twice and none left out, whoever dies or returns.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from service.domain.list_batch import ListEnd, Part, SentList, Work, counted, differing
from service.storage.database import Database
from service.storage.planting_lists import now_text
from service.storage.tables import ListCheckRow, ListPartRow, PlantingListRow

MOST_STUCK = 5
STUCK = (("", "The check was begun several times and never got on; the list may be too much for this machine."),)
_OPEN = ("waiting", "running")


class TakenByAnother(Exception):
    """Another took the check, or it was cancelled or removed: whoever meets this stops."""


def next_open(database: Database) -> str | None:
    """The check that has waited longest, or that somebody began who is gone (where only one works at a time)."""
    wanted = select(ListCheckRow.id).where(ListCheckRow.state.in_(_OPEN))
    with database.reading() as session:
        return session.scalars(wanted.order_by(ListCheckRow.asked_at, ListCheckRow.id).limit(1)).first()


def take(database: Database, check_id: str, rulebook: str) -> Work | None:
    """Take a check to work on; None where nothing is left to do. What another rulebook began is begun anew."""
    with database.writing() as session:
        row = session.get(ListCheckRow, check_id, with_for_update=True)
        if row is None or row.state not in _OPEN:
            return None
        if row.stuck >= MOST_STUCK:
            _end(row, "failed", STUCK)
            return None
        if row.rulebook not in (None, rulebook):
            session.execute(delete(ListPartRow).where(ListPartRow.check_id == check_id))
            row.parts = row.lines = 0
            row.verdicts = "{}"
        row.state, row.rulebook = "running", rulebook
        row.attempt += 1
        row.stuck += 1
        kept = session.get_one(PlantingListRow, row.list_id)
        sent = SentList(kept.form, json.loads(kept.terms), kept.name, kept.lines_expected)  # type: ignore[arg-type]
        return Work(row.id, row.list_id, row.attempt, sent, row.parts, row.lines)


def add_part(database: Database, work: Work, part: Part) -> None:
    """Write the next part, unless it stands already; TakenByAnother where the work is no longer ours."""
    with database.writing() as session:
        _add(session, _held(session, work), part)


def finish(database: Database, work: Work, end: ListEnd) -> None:
    """End the check with what is told of the whole list, and with its last part."""
    with database.writing() as session:
        row = _held(session, work)
        if end.last is not None:
            _add(session, row, end.last)
        row.told, row.list_verdict, row.stuck = end.told, end.verdict, 0
        row.changed_lines = _changed(session, row)
        _end(row, "done")
        older = (ListCheckRow.list_id == row.list_id) & (ListCheckRow.number < row.number - 1)
        session.execute(delete(ListCheckRow).where(older))


def fail(database: Database, work: Work, faults: Sequence[tuple[str, str]]) -> None:
    """End the check because the list cannot be read."""
    with database.writing() as session:
        _end(_held(session, work), "failed", faults)


def put_back(database: Database, work: Work) -> None:
    """Leave the rest to another, because this process is asked to stop."""
    with database.writing() as session:
        row = _held(session, work)
        row.state, row.stuck = "waiting", max(0, row.stuck - 1)


def tallies(database: Database, check_id: str) -> Iterator[Mapping[str, Any]]:
    """What the parts count up to, in their order."""
    wanted = select(ListPartRow.tally).where(ListPartRow.check_id == check_id).order_by(ListPartRow.part)
    with database.reading() as session:
        for tally in session.scalars(wanted.execution_options(yield_per=100)):
            yield json.loads(tally)


def _held(session: Session, work: Work) -> ListCheckRow:
    row = session.get(ListCheckRow, work.check_id, with_for_update=True)
    if row is None or row.state != "running" or row.attempt != work.attempt:
        raise TakenByAnother
    return row


def _add(session: Session, row: ListCheckRow, part: Part) -> None:
    if row.parts == part.number + 1:
        return  # it was written, and only the answer of the database was lost
    if row.parts != part.number:
        raise TakenByAnother
    session.add(
        ListPartRow(
            check_id=row.id,
            part=part.number,
            lines=part.lines,
            verdicts=part.verdicts,
            tally=json.dumps(part.tally),
            told=part.told,
        )
    )
    row.verdicts = json.dumps(Counter(json.loads(row.verdicts)) + Counter(counted(part.verdicts)))
    row.parts, row.lines, row.stuck = part.number + 1, row.lines + part.lines, 0


def _end(row: ListCheckRow, state: str, faults: Sequence[tuple[str, str]] = ()) -> None:
    row.state, row.ended_at = state, now_text()
    row.faults = json.dumps([list(fault) for fault in faults]) if faults else None


def _changed(session: Session, row: ListCheckRow) -> int | None:
    """How many verdicts differ from those of the check before; None where there is none that was done."""
    session.flush()
    before = session.scalars(
        select(ListCheckRow).where(ListCheckRow.list_id == row.list_id, ListCheckRow.number == row.number - 1)
    ).one_or_none()
    if before is None or before.state != "done":
        return None
    return differing(_verdicts(session, before.id), _verdicts(session, row.id))


def _verdicts(session: Session, check_id: str) -> str:
    wanted = select(ListPartRow.verdicts).where(ListPartRow.check_id == check_id).order_by(ListPartRow.part)
    return "".join(session.scalars(wanted))
