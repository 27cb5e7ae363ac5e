"""The invented shelf goes into a database once, and is marked as invented throughout."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from service.cli import cli
from service.commands.demo import demo_shelf
from service.compute.label_record import findings
from service.reasoning.rulebook import Rulebook
from service.settings import CHECKOUT
from service.storage.database import Database
from service.storage.shelf import shelf, withdraw

RULES = CHECKOUT / "rules"


def run(*arguments: str) -> str:
    result = CliRunner().invoke(cli, arguments, catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return result.output


def test_it_is_loaded_once_and_what_was_taken_off_stays_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    url = f"sqlite:///{tmp_path / 'store.sqlite3'}"
    monkeypatch.setenv("FRUITWRIGHT_DATABASE_URL", url)
    run("db", "upgrade")
    assert "25 invented products on the shelf, 25 of them loaded now." in run("demo", "load")
    database = Database(url)
    withdraw(database, "DP01")
    assert "25 invented products on the shelf, 0 of them loaded now." in run("demo", "load")
    assert len(shelf(database)) == 24
    database.close()


def test_every_record_is_whole_and_marked_as_invented(rulebook: Rulebook) -> None:
    model = rulebook.catalogue.label.model
    records = demo_shelf(RULES, rulebook.catalogue)
    assert len(records) == 25
    for record in records:
        assert record.demo
        assert findings(record, model) == (), record.id
        assert record.epa_reg_no is None or re.fullmatch(model.numbers.invented, record.epa_reg_no)


def test_the_shelf_holds_what_is_never_pointed_to_as_well(rulebook: Rulebook) -> None:
    records = demo_shelf(RULES, rulebook.catalogue)
    refused = rulebook.catalogue.label.actives
    assert any(record.restricted_use for record in records)
    assert any(record.reg_type == "exempt_25b" for record in records)
    assert any(refused[name].refuse for record in records for name in record.actives)
