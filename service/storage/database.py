"""The connection to the database: a SQLite file unless the settings name a PostgreSQL database."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url, text
from sqlalchemy.exc import DBAPIError, OperationalError
from sqlalchemy.orm import Session

from service.domain.errors import FruitwrightError

BUSY_MILLISECONDS = 5000
NO_SUCH_TABLE = "42P01"  # PostgreSQL; SQLite tells it as an operational error


class DatabaseAway(FruitwrightError):
    """The database cannot be reached just now."""


class Database:
    """Opens sessions; connects when the first one is opened, so a process may fork before that."""

    def __init__(self, url: str) -> None:
        self.engine = _engine(url)

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session that only reads."""
        with _explained(), Session(self.engine) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """A session that writes: all of it is stored at the end, or nothing."""
        engine = self.engine.execution_options(writes=True)
        with _explained(), Session(engine, expire_on_commit=False) as session, session.begin():
            yield session

    def answers(self) -> bool:
        """Whether the database can be reached."""
        try:
            with self.engine.connect() as connection:
                connection.execute(text("SELECT 1"))
        except OperationalError:
            return False
        return True

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()

    def let_go(self) -> None:
        """Forget connections that a parent process opened (call it in the child after a fork)."""
        self.engine.dispose(close=False)


@contextmanager
def _explained() -> Iterator[None]:
    try:
        yield
    except OperationalError as fault:
        raise DatabaseAway("The database cannot be reached just now.") from fault
    except DBAPIError as fault:
        if getattr(fault.orig, "sqlstate", None) == NO_SUCH_TABLE:
            raise DatabaseAway("The database is not migrated yet.") from fault
        if fault.connection_invalidated:
            raise DatabaseAway("The connection to the database was lost.") from fault
        raise


def _engine(url: str) -> Engine:
    if not url.startswith("sqlite"):
        return create_engine(
            url, hide_parameters=True, pool_pre_ping=True, pool_size=5, max_overflow=5, pool_timeout=10
        )
    file = make_url(url).database
    if file and file != ":memory:":
        Path(file).parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(url, hide_parameters=True)
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _prepare_sqlite(connection: Any, _: Any) -> None:
    connection.isolation_level = None  # the driver would begin transactions late and by its own rules
    cursor = connection.cursor()
    for pragma in ("journal_mode=WAL", "synchronous=NORMAL", "foreign_keys=ON", f"busy_timeout={BUSY_MILLISECONDS}"):
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    # a transaction that reads first and writes later fails at once when another wrote in between; so take the lock now
    writes = connection.get_execution_options().get("writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
