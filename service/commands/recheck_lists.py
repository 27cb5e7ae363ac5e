"""`fruitwright recheck-lists`: after rules have changed, have every kept planting list checked by them."""

from __future__ import annotations

import os

import click

from service.reasoning.rulebook import load_rulebook
from service.settings import read_settings
from service.storage.database import Database
from service.storage.planting_lists import check_again, lists_to_check_again


@click.command("recheck-lists")
@click.option("--dry-run", is_flag=True, help="Only say how many there are.")
@click.option("--most", type=click.IntRange(1), help="Put at most so many into the queue; the next run goes on.")
def recheck_lists(dry_run: bool, most: int | None) -> None:
    """Put every kept list into the queue that other rules judged last.

    The lists are then checked by whoever checks lists here: the serving process over SQLite, or all workers over
    PostgreSQL. A list that is in the queue already is not put there again, so this may run every night.
    """
    settings = read_settings(os.environ)
    rulebook = load_rulebook(settings.rules, overlay=settings.store_rules).digest
    database = Database(settings.database_url)
    if dry_run:
        found = lists_to_check_again(database, rulebook)
        click.echo(f"{_lists(found)} to check again.")
    else:
        found = check_again(database, rulebook, most=most)
        click.echo(f"{_lists(found)} put into the queue, to be checked by the rulebook {rulebook[:12]}.")


def _lists(count: int) -> str:
    return "1 list" if count == 1 else f"{count:,} lists"
