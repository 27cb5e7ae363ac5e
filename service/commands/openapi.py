"""`fruitwright openapi`: write the API's document, and the examples that it shows, where the project keeps them."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click
from flask import Flask

from service import create_app
from service.api.document import document_of
from service.api.shown import write_examples
from service.api.shown_answers import ask_all
from service.observe.logs import configure_logs
from service.settings import CHECKOUT, read_settings
from service.storage.migration import upgrade

DOCUMENT = CHECKOUT / "openapi" / "openapi.json"


@contextmanager
def plain_service() -> Iterator[Flask]:
    """The service as the project ships it, on an empty database: whatever a store has set up must not show."""
    configure_logs("warning", "text")
    with tempfile.TemporaryDirectory() as folder:
        app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{folder}/empty.sqlite3"}))
        database = app.extensions["fruitwright"].database
        upgrade(database)
        yield app
        database.close()


@click.group("openapi")
def openapi() -> None:
    """Look after the API's document."""


@openapi.command("write")
@click.option("--to", type=click.Path(dir_okay=False, path_type=Path), default=DOCUMENT, help="File to write.")
def write(to: Path) -> None:
    """Write the document to openapi/openapi.json.

    Its examples are asked of the service first and kept in the folder examples/ beside it.
    """
    with plain_service() as app:
        examples = ask_all(app)
        document = document_of(app.extensions["fruitwright_api"], examples)
    write_examples(examples, to.parent / "examples")
    to.write_text(json.dumps(document, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    click.echo(f"Wrote {to} and {len(examples)} examples beside it.")
