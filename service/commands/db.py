"""`fruitwright db`: bring the tables up to date, or take them back. A release step, never a web process, calls it."""

from __future__ import annotations

import os

import click

from service.settings import read_settings
from service.storage.database import Database
from service.storage.migration import downgrade, newest_revision, revision_of, upgrade


@click.group("db")
def db() -> None:
    """Look after the database."""


@db.command("upgrade")
def upgrade_command() -> None:
    """Migrate the database to the newest revision."""
    database = _database()
    before = revision_of(database)
    upgrade(database)
    after = revision_of(database)
    click.echo(f"The database stands at revision {after}" + (" already." if before == after else f"; it was {before}."))


@db.command("downgrade")
@click.argument("revision")
def downgrade_command(revision: str) -> None:
    """Migrate the database back to REVISION (base takes every table away)."""
    database = _database()
    downgrade(database, revision)
    click.echo(f"The database stands at revision {revision_of(database)}; the newest is {newest_revision()}.")


def _database() -> Database:
    return Database(read_settings(os.environ).database_url)
