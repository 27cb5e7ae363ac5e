"""Both databases that the service runs on: a SQLite file, and a PostgreSQL that the suite starts for itself."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
import tempfile
import uuid
from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest

from service.storage.database import Database
from service.storage.migration import upgrade

LACKING = "PostgreSQL's programs are missing below /usr/lib/postgresql; on Debian: apt-get install postgresql"


def programs() -> Path:
    """The folder of initdb and pg_ctl, of the newest version that is installed."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    if not found:
        pytest.fail(LACKING, pytrace=False)
    return found[-1].parent


def as_anyone(*command: object, folder: Path) -> None:
    """Run a program as an unprivileged user, for PostgreSQL refuses to run as root."""
    user = None
    if os.geteuid() == 0:
        user = next(name for name in ("postgres", "nobody") if name in {one.pw_name for one in pwd.getpwall()})
        shutil.chown(folder, user)
    ran = subprocess.run(
        [str(part) for part in command], user=user, cwd=folder, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stdout + ran.stderr


def free_port() -> int:
    """A port that nothing listens on just now."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


@pytest.fixture(scope="session")
def cluster() -> Iterator[str]:
    """A PostgreSQL of this run; the address of its first database, without the driver."""
    bin_folder = programs()
    with tempfile.TemporaryDirectory(prefix="fruitwright-pg-") as name:
        folder, port = Path(name), free_port()
        as_anyone(
            bin_folder / "initdb", "-D", folder / "data", "-U", "fruit", "-A", "trust", "-E", "UTF8", folder=folder
        )
        options = f"-p {port} -c listen_addresses=127.0.0.1 -k {folder} -c fsync=off"
        control = (bin_folder / "pg_ctl", "-D", folder / "data", "-w", "-l", folder / "log")
        as_anyone(*control, "-o", options, "start", folder=folder)
        try:
            yield f"postgresql://fruit@127.0.0.1:{port}/postgres"
        finally:
            as_anyone(*control, "-m", "immediate", "stop", folder=folder)


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The address of an empty database, one of each kind in turn."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'store.sqlite3'}"
    cluster: str = request.getfixturevalue("cluster")
    name = "t" + uuid.uuid4().hex
    with psycopg.connect(cluster, autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}")  # type: ignore[arg-type]
    return cluster.replace("postgresql://", "postgresql+psycopg://").replace("/postgres", f"/{name}")


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
