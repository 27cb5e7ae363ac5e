"""One set of migrations, the same on SQLite and on PostgreSQL."""

from __future__ import annotations

from pathlib import Path

from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from sqlalchemy import inspect

from service.storage.database import Database
from service.storage.migration import downgrade, newest_revision, revision_of, upgrade
from service.storage.tables import Table


def test_an_empty_database_stands_at_no_revision(empty: Database) -> None:
    assert empty.answers()
    assert revision_of(empty) is None


def test_the_migrations_lead_to_the_tables_of_the_code(empty: Database) -> None:
    upgrade(empty)
    assert revision_of(empty) == newest_revision()
    with empty.engine.connect() as connection:
        assert compare_metadata(MigrationContext.configure(connection), Table.metadata) == []


def test_migrating_twice_does_no_harm(database: Database) -> None:
    upgrade(database)
    assert revision_of(database) == newest_revision()


def test_the_migrations_lead_back_to_nothing(database: Database) -> None:
    downgrade(database, "base")
    assert set(inspect(database.engine).get_table_names()) <= {"alembic_version"}
    assert revision_of(database) is None


def test_a_sqlite_file_is_written_ahead_and_holds_its_foreign_keys(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path / 'store.sqlite3'}")
    with database.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
        assert connection.exec_driver_sql("PRAGMA busy_timeout").scalar() == 5000
    database.close()
