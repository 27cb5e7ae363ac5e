"""Work that only one process may do at a time: it takes a lease and renews it; when it dies, the lease runs out."""

from __future__ import annotations

from sqlalchemy import delete

from service.domain.list_batch import Lease
from service.storage.database import Database
from service.storage.tables import LeaseRow


def take_lease(database: Database, lease: Lease, *, now_s: float) -> bool:
    """Take the lease or renew it; False while another holds it. The clock is that of the machine."""
    with database.writing() as session:
        row = session.get(LeaseRow, lease.name, with_for_update=True)
        until_ms = round(1000 * (now_s + lease.seconds))
        if row is None:
            session.add(LeaseRow(name=lease.name, holder=lease.holder, until_ms=until_ms))
            return True
        if row.holder != lease.holder and row.until_ms > 1000 * now_s:
            return False
        row.holder, row.until_ms = lease.holder, until_ms
        return True


def give_back_lease(database: Database, lease: Lease) -> None:
    """Let another take it at once."""
    with database.writing() as session:
        session.execute(delete(LeaseRow).where(LeaseRow.name == lease.name, LeaseRow.holder == lease.holder))
