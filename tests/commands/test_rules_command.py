"""`fruitwright rules check` tells a rule writer what is wrong."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from service.commands.rules import rules

FOLDER = Path(__file__).resolve().parents[2] / "rules"


def test_a_sound_folder_is_told_as_such() -> None:
    result = CliRunner().invoke(rules, ["check", str(FOLDER)])
    assert result.exit_code == 0
    assert "every rule loads, and every example does what it says" in result.output


def test_faults_of_a_stores_own_rules_are_told_and_counted(tmp_path: Path) -> None:
    place = tmp_path / "store" / "suggestion" / "cultivar" / "own.yaml"
    place.parent.mkdir(parents=True)
    place.write_text("rules:\n  - {id: own, titel: Own}\n", encoding="utf-8")
    result = CliRunner().invoke(rules, ["check", str(FOLDER), "--store", str(tmp_path / "store")])
    assert result.exit_code == 1
    assert "store/suggestion/cultivar/own.yaml:2: own: 'titel' has no meaning here; the nearest right" in result.output
    assert "Error: 1 fault in" in result.output
