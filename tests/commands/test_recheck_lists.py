"""`fruitwright recheck-lists` puts lists into the queue that other rules judged, and `worker` checks them."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from service.commands.recheck_lists import recheck_lists
from service.commands.worker import worker
from service.domain.list_batch import Asking, ListEnd, Part, SentList
from service.storage.database import Database
from service.storage.list_checks import finish, next_open, take
from service.storage.list_progress import progress_of
from service.storage.migration import upgrade
from service.storage.planting_lists import keep_list


@pytest.fixture
def database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Database:
    """The database that the commands use."""
    url = f"sqlite:///{tmp_path / 'store.sqlite3'}"
    monkeypatch.setenv("FRUITWRIGHT_DATABASE_URL", url)
    monkeypatch.setenv("FRUITWRIGHT_MATCHER", "plain")
    database = Database(url)
    upgrade(database)
    return database


def judged_by_other_rules(database: Database) -> str:
    list_id = keep_list(database, SentList("text", {}), [b"1 Honeycrisp\n1 Liberty\n"], asking=Asking())
    work = take(database, next_open(database) or "", "other rules")
    assert work is not None
    finish(database, work, ListEnd(b"", "passes", Part(0, 2, "dd", {}, b"")))
    return list_id


def run(*arguments: str) -> Result:
    return CliRunner().invoke(recheck_lists, arguments, catch_exceptions=False)


def test_what_other_rules_judged_is_checked_again_and_what_changed_is_told(database: Database) -> None:
    list_id = judged_by_other_rules(database)
    assert run("--dry-run").output == "1 list to check again.\n"
    assert run().output.startswith("1 list put into the queue")
    assert run().output.startswith("0 lists put into the queue")
    assert CliRunner().invoke(worker, ["--until-done"], catch_exceptions=False).exit_code == 0
    progress = progress_of(database, list_id)
    assert progress is not None
    assert (progress.number, progress.state, progress.lines_done) == (2, "done", 2)
    assert progress.changed_lines == 2
    assert run("--dry-run").output == "0 lists to check again.\n"
    database.close()
