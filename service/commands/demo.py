"""`fruitwright demo`: put the invented store into the database, to try the service out with."""

from __future__ import annotations

import os

import click

from service.intake.demo_store import read_demo_store
from service.knowledge.catalogue import read_catalogue
from service.settings import read_settings
from service.storage.database import Database
from service.storage.stores import put_store, trees_in_stock


@click.group("demo")
def demo() -> None:
    """Look after the invented store."""


@demo.command("load")
def load() -> None:
    """Put the invented store into the database, unless it is there already."""
    settings = read_settings(os.environ)
    store = read_demo_store(settings.rules / "demo" / "store.yaml", read_catalogue(settings.rules))
    database = Database(settings.database_url)
    new = put_store(database, store)
    trees = trees_in_stock(database, store.id)
    click.echo(f"{store.name}: {trees} trees, {len(store.sites)} sites, {'loaded' if new else 'there already'}.")
