"""Puts checks into the queue, in the transaction that writes what they are about: neither is there without the other.

On PostgreSQL the queue is Procrastinate's, whose tables stand in a schema of their own. On SQLite the rows of the
checks are the queue, and whoever holds the lease looks for them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from sqlalchemy import make_url, text
from sqlalchemy.orm import Session

if TYPE_CHECKING:
    from procrastinate import App
    from procrastinate.types import JSONValue

SCHEMA = "fruitwright_queue"
QUEUE = "planting-lists"
TASK = "check-planting-list"
_AT_ONCE = 1_000
_IN_SCHEMA = text("SELECT set_config('search_path', :schema || ', ' || current_setting('search_path'), true)")


def queued(session: Session) -> bool:
    """Whether the database of the session has a queue that workers of their own look after."""
    return session.get_bind().dialect.name == "postgresql"


def enqueue(session: Session, checks: Sequence[str]) -> None:
    """Have these checks done; call it in the transaction that writes them."""
    if not checks or not queued(session):
        return
    session.flush()
    session.execute(_IN_SCHEMA, {"schema": SCHEMA})
    driver = session.connection().connection.driver_connection
    task = _defers().configure_task(TASK, queue=QUEUE, connection=driver)
    for first in range(0, len(checks), _AT_ONCE):
        jobs: list[dict[str, JSONValue]] = [{"check": check} for check in checks[first : first + _AT_ONCE]]
        task.batch_defer(*jobs)


def address_of_queue(database_url: str) -> str:
    """The address under which a worker sees the queue, as the driver takes it."""
    from psycopg.conninfo import conninfo_to_dict, make_conninfo  # noqa: PLC0415  (SQLite needs no driver)

    plain = make_url(database_url).set(drivername="postgresql").render_as_string(hide_password=False)
    given = conninfo_to_dict(plain).get("options") or ""
    return make_conninfo(plain, options=f"{given} -c search_path={SCHEMA}".strip())


@lru_cache(maxsize=1)
def _defers() -> App:
    """Writes jobs on connections that it is given, and opens none itself."""
    from procrastinate import App, SyncPsycopgConnector  # noqa: PLC0415  (SQLite needs no queue)

    return App(connector=SyncPsycopgConnector())
