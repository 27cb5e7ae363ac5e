"""The log of what was put on trees: entries are added, never changed and never taken away."""

from __future__ import annotations

import json
import uuid
from datetime import UTC, date, datetime

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from service.domain.application import Application
from service.domain.errors import FruitwrightError
from service.storage.database import Database
from service.storage.tables import ApplicationRow


class CorrectedAlready(FruitwrightError):
    """An entry is corrected that another entry corrected before."""


def new_entry_id() -> str:
    """An id of its own for an entry."""
    return uuid.uuid4().hex


def now_text() -> str:
    """The moment in UTC at which an entry is written, to the microsecond so that entries keep their order."""
    return datetime.now(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")


def log_application(database: Database, entry: Application) -> Application:
    """Add an entry, or give back the one that has its id already.

    Raises CorrectedAlready where another entry corrected the same one before.
    """
    earlier = find_application(database, entry.id)
    if earlier is not None:
        return earlier
    try:
        with database.writing() as session:
            session.add(_row(entry))
    except IntegrityError as fault:
        faster = find_application(database, entry.id)
        if faster is not None:
            return faster
        raise CorrectedAlready("This entry was corrected before; correct the entry that corrects it.") from fault
    return entry


def find_application(database: Database, entry_id: str) -> Application | None:
    """The entry of this id."""
    with database.reading() as session:
        row = session.get(ApplicationRow, entry_id)
        return _application(row) if row else None


def applications_of(database: Database, reference: str) -> tuple[Application, ...]:
    """Every entry of a tree, in the order in which they were written."""
    with database.reading() as session:
        wanted = select(ApplicationRow).where(ApplicationRow.reference == reference)
        rows = session.scalars(wanted.order_by(ApplicationRow.logged_at, ApplicationRow.id))
        return tuple(_application(row) for row in rows)


def _row(entry: Application) -> ApplicationRow:
    told = {name: getattr(entry, name) for name in _PLAIN}
    return ApplicationRow(applied_on=entry.applied_on.isoformat(), actives=json.dumps(entry.actives), **told)


def _application(row: ApplicationRow) -> Application:
    told = {name: getattr(row, name) for name in _PLAIN}
    return Application(applied_on=date.fromisoformat(row.applied_on), actives=tuple(json.loads(row.actives)), **told)


_PLAIN = (
    "id", "reference", "logged_at", "crop", "product", "version", "product_name", "epa_reg_no", "corrects",
    "did_not_happen",
)  # fmt: skip
