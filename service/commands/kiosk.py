"""`fruitwright kiosk`: make the key of a store's own kiosk."""

from __future__ import annotations

import re

import click

from service.api.kiosk_door import HEADER, hash_of, new_key


@click.group("kiosk")
def kiosk() -> None:
    """Look after the store's own kiosks."""


@kiosk.command("key")
@click.argument("name")
def key(name: str) -> None:
    """Make a key for the kiosk called NAME; it is shown once and kept nowhere."""
    if not re.fullmatch(r"[a-z0-9-]{1,40}", name):
        raise click.BadParameter("a name is 1 to 40 small letters, digits and hyphens, such as lobby-1.")
    made = new_key()
    click.echo(f"For the page of the kiosk, to be sent as {HEADER}:\n    {made}")
    click.echo(f"For FRUITWRIGHT_KIOSK_KEYS, after a comma where others stand there:\n    {name}:{hash_of(made)}")
