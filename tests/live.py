"""A service as it runs in a store: gunicorn with its real configuration, on a port of its own."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from service.settings import CHECKOUT

PATIENCE_S = 60


@contextmanager
def running(folder: Path, settings: Mapping[str, str]) -> Iterator[str]:
    """Start the service with a database in the folder; gives its address and stops it at the end."""
    port = free_port()
    kept = {name: value for name, value in os.environ.items() if not name.startswith("FRUITWRIGHT_")}
    own = {"PORT": str(port), "FRUITWRIGHT_DATABASE_URL": f"sqlite:///{folder / 'store.sqlite3'}", **settings}
    environment = {**kept, **own}
    run = [sys.executable, "-m"]
    subprocess.run([*run, "service.cli", "db", "upgrade"], env=environment, cwd=CHECKOUT, check=True)
    with (folder / "log").open("wb") as log:
        command = [*run, "gunicorn", "-c", "deploy/gunicorn.conf.py", "service.wsgi:app"]
        server = subprocess.Popen(command, env=environment, cwd=CHECKOUT, stderr=log)
    try:
        wait_for(f"http://127.0.0.1:{port}/readyz", server, folder / "log")
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(PATIENCE_S)


def wait_for(address: str, server: subprocess.Popen[bytes], log: Path) -> None:
    """Wait until the address answers; fail with the log when the server ends first."""
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        assert server.poll() is None, log.read_text()
        try:
            with urllib.request.urlopen(address):
                return
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.1)
    raise AssertionError(log.read_text())


def free_port() -> int:
    """A port that nothing listens on just now."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])
