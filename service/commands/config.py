"""`fruitwright config`: every setting, what it means and what it is set to."""

from __future__ import annotations

import os

import click

from service.settings import read_settings, shown, table


@click.command("config")
def config() -> None:
    """Print every setting with its meaning and its value; secrets are hidden."""
    values = dict(shown(read_settings(os.environ)))
    for row in table():
        click.echo(f"{row.name} = {values[row.name]}")
        click.echo(f"    {row.meaning} ({row.type}, default {row.default or 'none'})")
