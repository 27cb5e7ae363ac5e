"""The tables of the queue stand in a schema of their own and follow the scripts that the queue brings."""

from __future__ import annotations

from pathlib import Path

import pytest
from procrastinate.schema import SchemaManager
from sqlalchemy import inspect, text

from service.storage.database import Database
from service.storage.migration import downgrade, upgrade
from service.storage.queue import SCHEMA, address_of_queue
from tests.postgres import Cluster


@pytest.fixture
def postgres(cluster: Cluster) -> Database:
    """A PostgreSQL database with all tables."""
    database = Database(cluster.empty_database())
    upgrade(database)
    return database


def test_the_queue_has_a_schema_of_its_own(postgres: Database) -> None:
    tables = inspect(postgres.engine).get_table_names(schema=SCHEMA)
    assert "procrastinate_jobs" in tables
    assert not any(name.startswith("procrastinate") for name in inspect(postgres.engine).get_table_names())
    downgrade(postgres, "base")
    assert SCHEMA not in inspect(postgres.engine).get_schema_names()
    postgres.close()


def test_a_later_script_of_the_queue_runs_once(
    postgres: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "99.00.00_01_pre_later.sql").write_text("CREATE TABLE came_later (id int); SELECT '%';")
    monkeypatch.setattr(SchemaManager, "get_migrations_path", staticmethod(lambda: str(tmp_path)))
    upgrade(postgres)
    upgrade(postgres)
    assert "came_later" in inspect(postgres.engine).get_table_names(schema=SCHEMA)
    with postgres.reading() as session:
        assert "fruitwright_queue" not in str(session.scalar(text("SHOW search_path")))
    postgres.close()


def test_a_worker_sees_the_queue_beside_what_the_address_says_already() -> None:
    address = address_of_queue("postgresql+psycopg://fruit@localhost:1/trees?options=-c%20statement_timeout%3D5")
    assert "statement_timeout=5" in address
    assert f"search_path={SCHEMA}" in address
