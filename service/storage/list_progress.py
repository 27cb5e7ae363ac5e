"""What people see of checks of planting lists: how far they are, what they came to, and a way to call them off."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import Select, select

from service.domain.checked_list import VERDICTS
from service.domain.errors import FruitwrightError
from service.domain.list_batch import ENDED, Progress
from service.storage.database import Database
from service.storage.planting_lists import now_text
from service.storage.tables import ListCheckRow, ListPartRow, PlantingListRow


class EndedAlready(FruitwrightError):
    """A check that is to be called off has ended."""


@dataclass(frozen=True, slots=True)
class PackedPart:
    """The lines of one part as they are told, packed, and how many they are."""

    number: int
    lines: int
    told: bytes


def progress_of(database: Database, list_id: str) -> Progress | None:
    """How far the newest check of a list is."""
    with database.reading() as session:
        found = session.execute(_newest(list_id)).first()
        return None if found is None else _progress(found[0], found[1])


def lists_after(database: Database, after: str, most: int) -> tuple[Progress, ...]:
    """Lists in the order of their ids, after one of them, each with its newest check."""
    ids = select(PlantingListRow.id).where(PlantingListRow.id > after).order_by(PlantingListRow.id).limit(most)
    with database.reading() as session:
        found = (session.execute(_newest(list_id)).first() for list_id in session.scalars(ids).all())
        return tuple(_progress(one[0], one[1]) for one in found if one is not None)


def cancel(database: Database, list_id: str) -> Progress | None:
    """Call off the newest check of a list; EndedAlready where it is done or has failed."""
    with database.writing() as session:
        found = session.execute(_newest(list_id).with_for_update(of=ListCheckRow)).first()
        if found is None:
            return None
        kept, check = found[0], found[1]
        if check.state in ENDED - {"cancelled"}:
            raise EndedAlready("The check of this list has ended already.")
        if check.state != "cancelled":
            check.state, check.ended_at = "cancelled", now_text()
        return _progress(kept, check)


def told_of(database: Database, check_id: str) -> bytes | None:
    """What is told of a list as a whole, packed; None before the check is done."""
    with database.reading() as session:
        return session.scalars(select(ListCheckRow.told).where(ListCheckRow.id == check_id)).one_or_none()


def parts_of(database: Database, check_id: str, *, first: int = 0) -> Iterator[PackedPart]:
    """The parts of a check that are written, one after the other, from one on."""
    number: int | None = first
    while number is not None:
        wanted = select(ListPartRow).where(ListPartRow.check_id == check_id, ListPartRow.part >= number)
        with database.reading() as session:
            row = session.scalars(wanted.order_by(ListPartRow.part).limit(1)).first()
        number = None
        if row is not None:
            yield PackedPart(row.part, row.lines, row.told)
            number = row.part + 1


def _newest(list_id: str) -> Select[PlantingListRow, ListCheckRow]:
    return (
        select(PlantingListRow, ListCheckRow)
        .join(ListCheckRow, ListCheckRow.list_id == PlantingListRow.id)
        .where(PlantingListRow.id == list_id)
        .order_by(ListCheckRow.number.desc())
        .limit(1)
    )


def _progress(kept: PlantingListRow, check: ListCheckRow) -> Progress:
    verdicts = json.loads(check.verdicts)
    return Progress(
        list_id=kept.id,
        check_id=check.id,
        number=check.number,
        state=check.state,  # type: ignore[arg-type]
        sent_at=kept.sent_at,
        asked_at=check.asked_at,
        name=kept.name,
        lines_done=check.lines,
        lines_expected=check.lines if check.state == "done" else kept.lines_expected,
        verdicts={verdict: verdicts.get(verdict, 0) for verdict in VERDICTS},
        list_verdict=check.list_verdict,
        rulebook=check.rulebook,
        ended_at=check.ended_at,
        changed_lines=check.changed_lines,
        faults=tuple((pointer, detail) for pointer, detail in json.loads(check.faults or "[]")),
    )
