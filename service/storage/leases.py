"""Work that only one process may do at a time: it takes a lease and renews it; when it dies, the lease runs out."""

from __future__ import annotations

from sqlalchemy import delete

from service.storage.database import Database
from service.storage.tables import LeaseRow


def take_lease(database: Database, name: str, holder: str, *, now_s: float, seconds: float) -> bool:
    """Take the lease or renew it; False while another holds it. The clock is that of the machine."""
    with database.writing() as session:
        row = session.get(LeaseRow, name, with_for_update=True)
        if row is None:
            session.add(LeaseRow(name=name, holder=holder, until_ms=round(1000 * (now_s + seconds))))
            return True
        if row.holder != holder and row.until_ms > 1000 * now_s:
            return False
        row.holder, row.until_ms = holder, round(1000 * (now_s + seconds))
        return True


def give_back_lease(database: Database, name: str, holder: str) -> None:
    """Let another take it at once."""
    with database.writing() as session:
        session.execute(delete(LeaseRow).where(LeaseRow.name == name, LeaseRow.holder == holder))
