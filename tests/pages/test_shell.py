"""What a tablet keeps of the pages: all that they are made of, under a tag that changes with any of it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from service.pages import shell
from service.pages.shell import shell_files, shell_tag


def kept(client: FlaskClient) -> list[str]:
    script = client.get("/sw.js").text
    found = re.search(r"const KEPT = (\[.*\]);", script)
    assert found is not None
    return list(json.loads(found[1]))


def test_everything_that_is_kept_is_there(client: FlaskClient) -> None:
    for address in kept(client):
        with client.get(address) as answer:
            assert answer.status_code == 200, address


def test_all_that_the_counter_loads_is_kept(client: FlaskClient) -> None:
    page = client.get("/counter").text
    loaded = set(re.findall(r'(?:href|src)="(/static/[^"]+)"', page))
    assert loaded <= set(kept(client))
    assert {"/counter", "/words/en.json", "/words/es.json", "/fields.json"} <= set(kept(client))


def test_every_script_that_a_script_imports_is_kept() -> None:
    files = set(shell_files())
    for address in [name for name in files if name.endswith(".mjs")]:
        script = shell.FOLDER / address.removeprefix("/")
        for target in re.findall(r'(?:from|import\()\s*"(\.[^"]+)"', script.read_text(encoding="utf-8")):
            imported = (script.parent / target).resolve().relative_to(shell.FOLDER)
            assert f"/{imported}" in files, f"{address} imports {target}"


def test_the_script_of_the_service_worker_may_rule_the_whole_site(client: FlaskClient) -> None:
    answer = client.get("/sw.js")
    assert answer.mimetype == "text/javascript"
    assert answer.headers["Cache-Control"] == "no-cache"


def test_the_tag_changes_with_any_file(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(shell, "FOLDER", tmp_path)
    (tmp_path / "a.css").write_text("a {}")
    before = shell_tag()
    assert shell_tag() == before
    (tmp_path / "a.css").write_text("b {}")
    assert shell_tag() != before


def test_the_page_can_be_installed(client: FlaskClient) -> None:
    with client.get("/static/counter.webmanifest") as answer:
        manifest = json.loads(answer.data)
        assert answer.mimetype == "application/manifest+json"
    assert manifest["start_url"] == "/counter"
    for icon in manifest["icons"]:
        with client.get(icon["src"]) as answer:
            assert answer.status_code == 200
