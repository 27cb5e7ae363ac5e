"""What the tests of batches share: both databases, and a service on either."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask import Flask

from service import create_app
from service.parts import Parts
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings
from service.storage.database import Database
from tests.both_databases import cluster, database, empty, url

__all__ = ["cluster", "database", "empty", "url"]


@pytest.fixture
def service(database: Database, rulebook: Rulebook) -> Iterator[Flask]:
    """A service on the database of the test."""
    address = database.engine.url.render_as_string(hide_password=False)
    settings = {"FRUITWRIGHT_DATABASE_URL": address.replace("+psycopg", ""), "FRUITWRIGHT_MATCHER": "plain"}
    app = create_app(read_settings(settings), rulebook)
    app.testing = True
    yield app
    parts: Parts = app.extensions["fruitwright"]
    parts.database.close()
