"""Keeps the tables of the queue up to date, which Procrastinate describes in scripts that come with it.

An empty database gets its whole schema, and every script so far counts as done. Later versions bring further scripts;
those that are not noted yet are run in the order of their names.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from sqlalchemy import Connection, text

from service.storage.queue import SCHEMA

_NOTES = f"{SCHEMA}.scripts_that_ran"


def bring_queue_up(connection: Connection) -> None:
    """Make or update the tables of the queue, in the transaction of the migration that calls it."""
    if connection.dialect.name != "postgresql" or not _schema_is_there(connection):
        return
    from procrastinate.schema import SchemaManager  # noqa: PLC0415  (SQLite needs no queue)

    scripts = sorted(Path(SchemaManager.get_migrations_path()).glob("*.sql"))
    before = connection.scalar(text("SELECT current_setting('search_path')"))
    connection.execute(text(f"SET LOCAL search_path TO {SCHEMA}"))
    if connection.scalar(text("SELECT to_regclass(:notes)"), {"notes": _NOTES}) is None:
        connection.execute(text(f"CREATE TABLE {_NOTES} (name text PRIMARY KEY)"))
        _run(connection, SchemaManager.get_schema())
    else:
        done = set(connection.scalars(text(f"SELECT name FROM {_NOTES}")))
        for script in scripts:
            if script.name not in done:
                _run(connection, script.read_text(encoding="utf-8"))
    for script in scripts:
        connection.execute(text(f"INSERT INTO {_NOTES} VALUES (:name) ON CONFLICT DO NOTHING"), {"name": script.name})
    connection.execute(text("SELECT set_config('search_path', :before, true)"), {"before": before})


def _schema_is_there(connection: Connection) -> bool:
    found = connection.scalar(text("SELECT 1 FROM pg_namespace WHERE nspname = :name"), {"name": SCHEMA})
    return found is not None


def _run(connection: Connection, script: str) -> None:
    """Run a script of several statements; the driver takes those only where no values go along."""
    driver: Any = connection.connection.driver_connection
    driver.execute(script)
