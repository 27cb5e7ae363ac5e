"""The command line: each command says what it did, and a fault of ours is a sentence and not a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from service.cli import COMMANDS, cli
from service.commands.openapi import DOCUMENT
from service.settings import CHECKOUT, table
from service.storage.database import Database
from service.storage.hand_outs import new_hand_out
from service.storage.tables import HandOutRow


@pytest.fixture(autouse=True)
def own_database(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test has a database of its own."""
    monkeypatch.setenv("FRUITWRIGHT_DATABASE_URL", f"sqlite:///{tmp_path / 'store.sqlite3'}")


def run(*arguments: str) -> str:
    result = CliRunner().invoke(cli, arguments, catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return result.output


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_every_command_says_what_it_is_for(command: str) -> None:
    assert "Usage:" in run(command, "--help")


def test_the_list_of_commands_names_them_all() -> None:
    listed = run("--help")
    assert all(command in listed for command in COMMANDS)


def test_config_shows_every_setting_with_its_meaning() -> None:
    told = run("config")
    for row in table():
        assert f"{row.name} = " in told
        assert row.meaning in told


def test_the_database_is_migrated_up_and_down() -> None:
    assert "it was None" in run("db", "upgrade")
    assert "already" in run("db", "upgrade")
    assert "stands at revision None" in run("db", "downgrade", "base")


def test_hand_outs_that_expired_are_swept() -> None:
    run("db", "upgrade")
    database = Database(os.environ["FRUITWRIGHT_DATABASE_URL"])
    for days in (1, 60):
        made = new_hand_out({"topics": []}, now=datetime.now(UTC) - timedelta(days=30), days=days)
        with database.writing() as session:
            row = {"secret": made.secret, "made_at": made.made_at, "expires_at": made.expires_at}
            session.add(HandOutRow(sheet="{}", idempotency_key=None, request_digest="d", **row))
    database.close()
    assert run("hand-outs", "sweep") == "1 expired and deleted.\n"
    assert run("hand-outs", "sweep") == "0 expired and deleted.\n"


def test_the_document_is_written_as_the_project_keeps_it(tmp_path: Path) -> None:
    run("openapi", "write", "--to", str(tmp_path / "openapi.json"))
    written = json.loads((tmp_path / "openapi.json").read_text(encoding="utf-8"))
    assert written == json.loads(DOCUMENT.read_text(encoding="utf-8"))


def test_serve_says_where_the_pages_are() -> None:
    told = run("serve", "--info")
    assert "http://127.0.0.1:8080/counter" in told
    assert "http://127.0.0.1:8080/docs" in told


def test_a_wrong_setting_ends_in_a_sentence() -> None:
    environment = {**os.environ, "PORT": "many"}
    command = [sys.executable, "-m", "service.cli", "serve", "--info"]
    ran = subprocess.run(command, cwd=CHECKOUT, env=environment, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert ran.stderr == "PORT must be a whole number from 1 to 65535, not 'many'.\n"


def test_a_broken_rulebook_stops_the_server_with_file_and_line(tmp_path: Path) -> None:
    (tmp_path / "rules").mkdir()
    (tmp_path / "rules" / "sources.yaml").write_text("sources:\n  - id: a\n    id: b\n", encoding="utf-8")
    environment = {**os.environ, "FRUITWRIGHT_RULES": str(tmp_path / "rules")}
    command = [sys.executable, "-c", "import service.wsgi"]
    ran = subprocess.run(command, cwd=CHECKOUT, env=environment, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert "sources.yaml:3: the key 'id' stands twice" in ran.stderr
    assert "Traceback" not in ran.stderr
