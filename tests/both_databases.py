"""Both databases that the service runs on: a SQLite file, and a PostgreSQL that the suite starts for itself."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from service.storage.database import Database
from service.storage.migration import upgrade
from tests.postgres import Cluster, free_port


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """A PostgreSQL of this run."""
    with tempfile.TemporaryDirectory(prefix="fruitwright-pg-") as name:
        cluster = Cluster(Path(name), free_port())
        cluster.make()
        cluster.start()
        try:
            yield cluster
        finally:
            cluster.stop()


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty database, one of each kind in turn."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'store.sqlite3'}"
    cluster: Cluster = request.getfixturevalue("cluster")
    return cluster.empty_database()


@pytest.fixture
def empty(url: str) -> Iterator[Database]:
    """A database without tables."""
    database = Database(url)
    yield database
    database.close()


@pytest.fixture
def database(empty: Database) -> Database:
    """A database with all tables."""
    upgrade(empty)
    return empty
