"""The command line: `fruitwright` with one file a command in service/commands/."""

from __future__ import annotations

import sys
from importlib import import_module

import click

from service.domain.errors import FruitwrightError

COMMANDS = {
    "check-list": "check_list",
    "climate": "climate",
    "config": "config",
    "db": "db",
    "demo": "demo",
    "hand-outs": "hand_outs",
    "kiosk": "kiosk",
    "openapi": "openapi",
    "recheck-lists": "recheck_lists",
    "rules": "rules",
    "serve": "serve",
    "worker": "worker",
}


class _ByName(click.Group):
    """A group that imports a command when it is called, so that each starts fast and stands on its own."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of all commands."""
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of this name."""
        module = COMMANDS.get(cmd_name)
        if module is None:
            return None
        command: click.Command = getattr(import_module(f"service.commands.{module}"), module)
        return command


@click.group(cls=_ByName)
@click.version_option(package_name="fruitwright")
def cli() -> None:
    """Advice on fruit trees: serve it, check its rules, look after its data."""


def main() -> None:
    """Run the command line; an error of ours is one sentence and exit status 1."""
    try:
        cli()
    except FruitwrightError as fault:
        click.echo(str(fault), err=True)
        sys.exit(1)


if __name__ == "__main__":
    main()
