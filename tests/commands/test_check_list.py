"""`fruitwright check-list` checks lists in files and folders, and its exit code tells the worst."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from service.commands.check_list import check_list
from service.domain.errors import FruitwrightError
from service.domain.store import Store, StoreSite
from service.storage.database import Database
from service.storage.migration import upgrade
from service.storage.stores import put_store

SITE = "site: {hardiness_zone: 7b, chill_hours: 900, width_ft: 60, depth_ft: 60}\nstate: WA\n"
Run = Callable[..., Result]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Calls the command with a site and an empty database of its own."""
    url = f"sqlite:///{tmp_path / 'database' / 'store.sqlite3'}"
    monkeypatch.setenv("FRUITWRIGHT_DATABASE_URL", url)
    monkeypatch.setenv("FRUITWRIGHT_MATCHER", "plain")
    database = Database(url)
    upgrade(database)
    facts = {"hardiness_zone": "7b", "chill_hours": 900}
    put_store(database, Store("s", "Invented", True, sites=(StoreSite("site_a1", "A1", facts),), stock=()))
    database.close()
    (tmp_path / "site.yaml").write_text(SITE)

    def call(*arguments: object, site: str = str(tmp_path / "site.yaml")) -> Result:
        return CliRunner().invoke(check_list, [*(str(one) for one in arguments), "--site", site])

    return call


def written(folder: Path, name: str, text: str) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / name).write_text(text)
    return folder / name


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("1 Stanley European plum\n", (0, 3)),
        ("1 Honeycrisp\n1 Zzyxqv Wunder\n", (5,)),
        ("1 Honeycrisp on Colt\n", (4,)),
    ],
)
def test_the_exit_code_tells_the_worst_verdict(run: Run, tmp_path: Path, text: str, code: tuple[int, ...]) -> None:
    told = run(written(tmp_path, "list.txt", text))
    assert told.exit_code in code, told.output


def test_text_is_printed_and_what_each_list_came_to_stands_beside_it(run: Run, tmp_path: Path) -> None:
    told = run(written(tmp_path, "list.txt", "2 Honeycrisp\n1 Liberty\n"))
    assert "Honeycrisp" in told.stdout
    assert "2 lines" in told.stderr
    assert "list.txt" in told.stderr


def test_json_is_the_answer_of_the_api(run: Run, tmp_path: Path) -> None:
    told = run(written(tmp_path, "list.txt", "2 Honeycrisp\n1 Liberty\n"), "--format", "json")
    answer = json.loads(told.stdout)["answer"]
    assert [line["line"] for line in answer["lines"]] == [1, 2]
    assert answer["language"] == "en"


def test_all_lists_of_a_folder_are_checked_and_each_has_its_result(run: Run, tmp_path: Path) -> None:
    lists, out = tmp_path / "lists", tmp_path / "out"
    written(lists, "a.csv", "qty,variety\n1,Honeycrisp\n")
    written(lists, ".hidden", "1 Gala\n")
    written(lists / "more", "a.csv", "qty,variety\n1,Liberty\n")
    told = run(lists, "--format", "json", "--out", out, "--language", "es")
    assert told.exit_code in (0, 3, 4), told.output
    assert sorted(path.name for path in out.iterdir()) == ["a.csv-2.json", "a.csv.json"]
    assert json.loads((out / "a.csv.json").read_text())["answer"]["language"] == "es"


@pytest.mark.parametrize(("form", "begins"), [("xlsx", b"PK"), ("pdf", b"%PDF")])
def test_workbooks_and_sheets_go_into_a_folder(run: Run, tmp_path: Path, form: str, begins: bytes) -> None:
    path = written(tmp_path, "list.txt", "2 Honeycrisp\n")
    assert run(path, "--format", form).exit_code == 2
    run(path, "--format", form, "--out", tmp_path / "out")
    assert (tmp_path / "out" / f"list.txt.{form}").read_bytes().startswith(begins)


def test_a_list_of_any_length_is_checked_line_by_line(run: Run, tmp_path: Path) -> None:
    told = run(written(tmp_path, "list.txt", "1 Gala apple\n" * 1_204), "--format", "json")
    answer = json.loads(told.stdout)["answer"]
    assert [line["line"] for line in answer["lines"]] == list(range(1, 1_205))
    assert answer["totals"]["lines"] == 1_204


def test_a_file_that_is_no_list_is_told_and_the_others_are_checked(run: Run, tmp_path: Path) -> None:
    bad, good = tmp_path / "list.pdf", written(tmp_path, "list.txt", "1 Honeycrisp\n")
    bad.write_bytes(b"%PDF-1.7")
    told = run(bad, good)
    assert told.exit_code == 1
    assert "list.pdf: " in told.stderr
    assert "PDF" in told.stderr
    assert "Honeycrisp" in told.stdout


def test_a_site_is_a_file_or_one_that_is_kept(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path, "list.txt", "1 Honeycrisp\n")
    bare = written(tmp_path, "bare.json", '{"hardiness_zone": "7b", "chill_hours": 900}')
    by_file, by_id = run(path, "--format", "json", site=str(bare)), run(path, "--format", "json", site="site_a1")
    assert json.loads(by_file.stdout) == json.loads(by_id.stdout)


def test_a_site_that_is_unknown_or_wrong_is_told(run: Run, tmp_path: Path) -> None:
    path = written(tmp_path, "list.txt", "1 Honeycrisp\n")
    unknown = run(path, site="site_zz").exception
    assert isinstance(unknown, FruitwrightError)
    assert "site_zz" in str(unknown)
    wrong = run(path, site=str(written(tmp_path, "wrong.yaml", "site: {width_ft: -3}\n"))).exception
    assert "/site/width_ft" in str(wrong)
