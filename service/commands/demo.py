"""`fruitwright demo`: put the invented store and its shelf into the database, to try the service out with."""

from __future__ import annotations

import os
from pathlib import Path

import click

from service.api.shelf_reading import records_in_table
from service.domain.label import LabelRecord
from service.intake.demo_store import read_demo_store
from service.intake.label_names import LabelNames
from service.intake.shelf_file import rows_of_csv
from service.knowledge.catalogue import Catalogue, read_catalogue
from service.knowledge.names import NameBook
from service.settings import read_settings
from service.storage.database import Database
from service.storage.shelf import put_all, shelf
from service.storage.stores import put_store, trees_in_stock


@click.group("demo")
def demo() -> None:
    """Look after the invented store."""


@demo.command("load")
def load() -> None:
    """Put the invented store and its products into the database, unless they are there already."""
    settings = read_settings(os.environ)
    catalogue = read_catalogue(settings.rules)
    store = read_demo_store(settings.rules / "demo" / "store.yaml", catalogue)
    database = Database(settings.database_url)
    new = put_store(database, store)
    trees = trees_in_stock(database, store.id)
    click.echo(f"{store.name}: {trees} trees, {len(store.sites)} sites, {'loaded' if new else 'there already'}.")
    records = demo_shelf(settings.rules, catalogue)
    there = {product.id for gone in (False, True) for product in shelf(database, withdrawn=gone)}
    put_all(database, [record for record in records if record.id not in there])
    loaded = len([record for record in records if record.id not in there])
    click.echo(f"{len(records)} invented products on the shelf, {loaded} of them loaded now.")


def demo_shelf(rules: Path, catalogue: Catalogue) -> list[LabelRecord]:
    """The invented products of a rules folder."""
    names = LabelNames(NameBook(catalogue), catalogue)
    rows = rows_of_csv((rules / "demo" / "shelf.csv").read_bytes())
    return [read.record for read in records_in_table(rows, names)]
