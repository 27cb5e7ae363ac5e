"""`fruitwright openapi`: write the API's document where the project keeps it."""

from __future__ import annotations

import json
import os
from pathlib import Path

import click

from service import create_app
from service.api.document import document_of
from service.settings import CHECKOUT, read_settings

DOCUMENT = CHECKOUT / "openapi" / "openapi.json"


def document_text() -> str:
    """The document as text, as the file holds it."""
    app = create_app(read_settings(os.environ))
    return json.dumps(document_of(app.extensions["fruitwright_api"]), indent=1, ensure_ascii=False) + "\n"


@click.group("openapi")
def openapi() -> None:
    """Look after the API's document."""


@openapi.command("write")
@click.option("--to", type=click.Path(dir_okay=False, path_type=Path), default=DOCUMENT, help="File to write.")
def write(to: Path) -> None:
    """Write the document to openapi/openapi.json."""
    to.write_text(document_text(), encoding="utf-8")
    click.echo(f"Wrote {to}.")
