"""A PostgreSQL that the suite starts for itself, in a folder and on a port of its own."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
import uuid
from dataclasses import dataclass
from pathlib import Path

import psycopg
import pytest

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


@dataclass(frozen=True, slots=True)
class Cluster:
    """A PostgreSQL below a folder, on a port."""

    folder: Path
    port: int

    @property
    def address(self) -> str:
        """The address of its first database, without the driver."""
        return f"postgresql://fruit@127.0.0.1:{self.port}/postgres"

    def make(self) -> None:
        """Make its files."""
        where = ("-D", self.folder / "data")
        as_anyone(programs() / "initdb", *where, "-U", "fruit", "-A", "trust", "-E", "UTF8", folder=self.folder)

    def start(self, *, durable: bool = False) -> None:
        """Start it; one that is to be stopped hard must be durable."""
        options = f"-p {self.port} -c listen_addresses=127.0.0.1 -k {self.folder}"
        self._control("-o", options + ("" if durable else " -c fsync=off"), "start")

    def stop(self) -> None:
        """Stop it at once, as a machine does that loses its power."""
        self._control("-m", "immediate", "stop")

    def empty_database(self) -> str:
        """The address of a new database, as the settings take it."""
        name = "t" + uuid.uuid4().hex
        with psycopg.connect(self.address, autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}")  # type: ignore[arg-type]
        return self.address.replace("postgresql://", "postgresql+psycopg://").replace("/postgres", f"/{name}")

    def _control(self, *arguments: object) -> None:
        control = (programs() / "pg_ctl", "-D", self.folder / "data", "-w", "-l", self.folder / "log")
        as_anyone(*control, *arguments, folder=self.folder)
