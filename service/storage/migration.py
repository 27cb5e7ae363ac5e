"""Brings the tables up to date. A release step calls this, never a web process at its start."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, text

from service.storage.database import Database
from service.storage.queue_schema import bring_queue_up

FOLDER = Path(__file__).resolve().parent / "migrations"
ONE_AT_A_TIME = 7_301_946  # any number will do, so long as every release step takes the same


def upgrade(database: Database, to: str = "head") -> None:
    """Migrate the database upwards; two release steps at once wait for each other."""
    with database.engine.execution_options(writes=True).begin() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": ONE_AT_A_TIME})
        command.upgrade(_config(connection), to)
        bring_queue_up(connection)


def downgrade(database: Database, to: str) -> None:
    """Migrate the database downwards; `base` takes every table away."""
    with database.engine.execution_options(writes=True).begin() as connection:
        command.downgrade(_config(connection), to)


def revision_of(database: Database) -> str | None:
    """The revision that the database stands at; None when it was never migrated."""
    with database.engine.connect() as connection:
        return MigrationContext.configure(connection).get_current_revision()


def newest_revision() -> str | None:
    """The revision that this code asks for."""
    return ScriptDirectory.from_config(_config(None)).get_current_head()


def _config(connection: Connection | None) -> Config:
    config = Config()
    config.set_main_option("script_location", str(FOLDER))
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    return config
