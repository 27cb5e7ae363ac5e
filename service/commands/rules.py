"""`fruitwright rules`: what a rule writer needs."""

from __future__ import annotations

import os
from pathlib import Path

import click

from service.reasoning.check import check as check_rules
from service.settings import read_settings

_FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)


@click.group("rules")
def rules() -> None:
    """Check rules, ours and a store's own."""


@rules.command()
@click.argument("folder", type=_FOLDER, required=False)
@click.option("--store", type=_FOLDER, help="A store's own folder, laid over the other.")
def check(folder: Path | None, store: Path | None) -> None:
    """Read FOLDER as the service does at its start, run every example, and tell all that is wrong."""
    settings = read_settings(os.environ)
    place, overlay = folder or settings.rules, store or settings.store_rules
    faults = check_rules(place, overlay=overlay)
    for fault in faults:
        click.echo(fault)
    if faults:
        raise click.ClickException(f"{len(faults)} {'fault' if len(faults) == 1 else 'faults'} in {place}")
    click.echo(f"{place}: every rule loads, and every example does what it says.")
