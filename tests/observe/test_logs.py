"""Logs: one JSON object a line, the request's id on each, and nothing that a person typed."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.request import Request, urlopen

import pytest
from flask import Flask

from service import create_app
from service.observe.logs import configure_logs
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings
from tests.live import running

Lines = Callable[[], list[dict[str, object]]]


@pytest.fixture
def lines(capfd: pytest.CaptureFixture[str]) -> Iterator[Lines]:
    """The log lines so far, parsed."""
    configure_logs("info", "json")
    yield lambda: [json.loads(line) for line in capfd.readouterr().err.splitlines()]
    configure_logs("warning", "json")


@pytest.fixture
def talkative(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """A service of its own, with a view that breaks."""
    file = tmp_path_factory.mktemp("logs") / "store.sqlite3"
    app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{file}"}), rulebook)
    app.add_url_rule("/breaks", view_func=lambda: 1 / 0)
    yield app
    app.extensions["fruitwright"].database.close()


def test_an_answer_is_one_line_with_route_status_and_time(talkative: Flask, lines: Lines) -> None:
    talkative.test_client().get("/v1/crops/apple", headers={"X-Request-Id": "till-3.0042"})
    (line,) = lines()
    assert line["event"] == "answered"
    assert (line["method"], line["route"], line["status"]) == ("GET", "/v1/crops/<crop>", 200)
    assert line["request_id"] == "till-3.0042"
    assert isinstance(line["milliseconds"], float)


def test_what_was_typed_is_not_logged(talkative: Flask, lines: Lines) -> None:
    client = talkative.test_client()
    client.get("/v1/cultivars?name=Mrs+Miller", headers={"User-Agent": "Browser of Miller"})
    client.post("/v1/variety-suggestions", json={"consider": ["Miller's apple"]})
    assert "Miller" not in json.dumps(lines())


def test_an_id_that_could_forge_a_line_is_replaced(talkative: Flask, lines: Lines) -> None:
    answer = talkative.test_client().get("/v1/crops/apple", headers={"X-Request-Id": 'a" }{'})
    (line,) = lines()
    assert line["request_id"] == answer.headers["X-Request-Id"]
    assert len(str(line["request_id"])) == 32


def test_a_fault_of_ours_is_logged_with_its_trace_and_the_request_id(talkative: Flask, lines: Lines) -> None:
    answer = talkative.test_client().get("/breaks")
    assert answer.status_code == 500
    fault, answered = lines()
    assert "ZeroDivisionError" in str(fault["exception"])
    assert fault["request_id"] == answered["request_id"] == answer.headers["X-Request-Id"]


def test_being_watched_is_not_worth_a_line(talkative: Flask, lines: Lines) -> None:
    talkative.test_client().get("/livez")
    assert lines() == []


def test_the_running_service_logs_no_addresses_and_no_browsers(tmp_path: Path) -> None:
    with running(tmp_path, {"FRUITWRIGHT_WORKERS": "1"}) as address:
        asked = Request(f"{address}/v1/cultivars?name=Miller", headers={"User-Agent": "Browser of Miller"})
        with urlopen(asked) as answer:
            assert answer.status == 200
    written = [json.loads(line) for line in (tmp_path / "log").read_text(encoding="utf-8").splitlines()]
    assert "answered" in {line["event"] for line in written}
    assert [line for line in written if "Miller" in json.dumps(line) or "127.0.0.1 -" in line["event"]] == []
