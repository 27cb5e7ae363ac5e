"""What many tests share: the real rulebook, read once, and a service on an empty database of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import HealthCheck, settings

from service import create_app
from service.observe.logs import configure_logs
from service.parts import Parts
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import CHECKOUT, read_settings
from service.storage.migration import upgrade
from tests.live import running

_BUSY = (HealthCheck.too_slow,)  # a busy machine is no reason to fail
# the same draws each time, so that a red run can be had again
settings.register_profile("untimed", deadline=None, derandomize=True, suppress_health_check=_BUSY)
settings.load_profile("untimed")


@pytest.fixture(scope="session")
def rulebook() -> Rulebook:
    """The rulebook of the project."""
    return load_rulebook(CHECKOUT / "rules")


@pytest.fixture(scope="session")
def app(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """The service with the real rulebook, on a SQLite file of this run."""
    file: Path = tmp_path_factory.mktemp("database") / "store.sqlite3"
    configure_logs("warning", "json")
    app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{file}"}), rulebook)
    app.testing = True
    parts: Parts = app.extensions["fruitwright"]
    upgrade(parts.database)
    yield app
    parts.database.close()


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the service."""
    return app.test_client()


@pytest.fixture(scope="session")
def live(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a running service with its real configuration."""
    with running(tmp_path_factory.mktemp("live"), {"FRUITWRIGHT_LOG_LEVEL": "warning"}) as address:
        yield address
