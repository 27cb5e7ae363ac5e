"""`fruitwright hand-outs`: look after what customers took home."""

from __future__ import annotations

import os
from datetime import UTC, datetime

import click

from service.settings import read_settings
from service.storage.database import Database
from service.storage.hand_outs import sweep


@click.group("hand-outs")
def hand_outs() -> None:
    """Look after what customers took home."""


@hand_outs.command("sweep")
def sweep_command() -> None:
    """Delete every hand-out that has expired; run it nightly where whole days may pass without a customer."""
    database = Database(read_settings(os.environ).database_url)
    try:
        gone = sweep(database, datetime.now(UTC))
    finally:
        database.close()
    click.echo(f"{gone} expired and deleted.")
