"""Pages of listed origins may ask what a customer may ask, with the key of their kiosk, and nothing else."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from flask import Flask
from flask.testing import FlaskClient

from service import create_app
from service.api.kiosk_door import HEADER, OPEN, hash_of, new_key
from service.cli import cli
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings
from service.storage.migration import upgrade

KIOSK = "https://kiosk.example"
KEY = new_key()
ASKED = {"Origin": KIOSK, HEADER: KEY}
SETTINGS = {
    "FRUITWRIGHT_KIOSK_ORIGINS": f"{KIOSK},https://yard.example",
    "FRUITWRIGHT_KIOSK_KEYS": f"yard:{hash_of(new_key())},lobby:{hash_of(KEY)}",
}


@pytest.fixture(scope="module")
def open_app(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """A service that knows two kiosks."""
    file: Path = tmp_path_factory.mktemp("kiosk") / "store.sqlite3"
    settings = read_settings({**SETTINGS, "FRUITWRIGHT_DATABASE_URL": f"sqlite:///{file}"})
    app = create_app(replace(settings, matcher="plain"), rulebook)
    app.testing = True
    upgrade(app.extensions["fruitwright"].database)
    yield app
    app.extensions["fruitwright"].database.close()


@pytest.fixture
def door(open_app: Flask) -> FlaskClient:
    """A client of that service."""
    return open_app.test_client()


def cross_origin(answer: Any) -> dict[str, str]:
    return {name: value for name, value in answer.headers if name.startswith("Access-Control-")}


def test_a_listed_page_with_its_key_asks_and_reads(door: FlaskClient) -> None:
    told = door.post("/v1/diagnoses", json={"crop": "fig"}, headers=ASKED)
    assert told.status_code == 200
    assert told.headers["Access-Control-Allow-Origin"] == KIOSK
    assert "Origin" in told.headers["Vary"]
    assert "Access-Control-Allow-Credentials" not in told.headers


def test_the_browser_may_ask_beforehand_what_it_may_send(door: FlaskClient) -> None:
    asks = {"Origin": KIOSK, "Access-Control-Request-Method": "POST", "Access-Control-Request-Headers": "kiosk-key"}
    told = door.options("/v1/variety-suggestions", headers=asks)
    assert told.status_code == 204
    assert told.headers["Access-Control-Allow-Origin"] == KIOSK
    assert HEADER in told.headers["Access-Control-Allow-Headers"]
    assert told.headers["Access-Control-Allow-Methods"] == "GET, POST"


@pytest.mark.parametrize("origin", ["https://elsewhere.example", "https://kiosk.example.elsewhere.example", "null",
                                    "http://kiosk.example", "https://kiosk.example:8443"])  # fmt: skip
def test_a_page_that_is_not_listed_is_let_read_nothing(door: FlaskClient, origin: str) -> None:
    for told in (
        door.options("/v1/diagnoses", headers={"Origin": origin, "Access-Control-Request-Method": "POST"}),
        door.post("/v1/diagnoses", json={"crop": "fig"}, headers={"Origin": origin, HEADER: KEY}),
        door.get("/v1/names", headers={"Origin": origin}),
    ):
        assert cross_origin(told) == {}


@pytest.mark.parametrize("key", [None, "", "wrong", hash_of(KEY)], ids=["none", "empty", "wrong", "the kept hash"])
def test_a_listed_page_without_its_key_is_refused_in_words_that_it_can_read(door: FlaskClient, key: str | None) -> None:
    headers = {"Origin": KIOSK} if key is None else {"Origin": KIOSK, HEADER: key}
    told = door.post("/v1/diagnoses", json={"crop": "fig"}, headers=headers)
    assert (told.status_code, told.mimetype) == (403, "application/problem+json")
    assert told.headers["Access-Control-Allow-Origin"] == KIOSK
    assert "key" in told.json["detail"]


@pytest.mark.parametrize(
    ("method", "address"),
    [
        ("POST", "/v1/treatment-pointers"), ("POST", "/v1/planting-lists"), ("POST", "/v1/climate-summaries"),
        ("POST", "/v1/hand-outs"), ("POST", "/v1/shelf-imports"), ("GET", "/v1/shelf-products"), ("GET", "/v1/stock"),
        ("GET", "/v1/tickets/417"), ("GET", "/v1/applications"), ("GET", "/metrics"), ("GET", "/"), ("GET", "/counter"),
    ],
)  # fmt: skip
def test_a_key_opens_no_record_of_the_store(door: FlaskClient, method: str, address: str) -> None:
    told = door.open(address, method=method, json={} if method == "POST" else None, headers=ASKED)
    assert told.status_code == 403
    assert "nothing else" in told.json["detail"]


def test_all_that_is_open_is_there_and_answers_a_kiosk(door: FlaskClient) -> None:
    rules = {rule.rule for rule in door.application.url_map.iter_rules()}
    assert {address for addresses in OPEN.values() for address in addresses} <= rules
    for rule in OPEN["GET"]:
        address = rule.replace("<sign>", "lf_honeydew").replace("<complaint>", "brown_edges")
        query = {"crop": "apple", "cultivar": "Liberty", "partner": "Gala"} if "pollination" in address else {}
        assert door.get(address, query_string=query, headers=ASKED).status_code == 200, address


def test_nothing_that_is_open_tells_a_price_or_a_product(door: FlaskClient) -> None:
    document = door.get("/openapi.json").json
    schemas = document["components"]["schemas"]
    fields = set()
    for address in OPEN["POST"]:
        said = document["paths"][address]["post"]["responses"]
        waiting, seen = [json.dumps(said)], set()
        while waiting:
            text = waiting.pop()
            for name in schemas.keys() - seen:
                if f"schemas/{name}\"" in text:
                    seen.add(name)
                    fields |= set(schemas[name].get("properties", {}))
                    waiting.append(json.dumps(schemas[name]))
    assert "likelihood" in fields
    assert {name for name in fields if "price" in name or "stock" in name.split("_") or "quantity" in name} == set()
    assert "products" not in fields


def test_a_kiosk_makes_a_ticket_and_keeps_nothing_else(door: FlaskClient) -> None:
    ticket = {"came_for": "trouble", "questions": [{"question": "diagnoses", "asked": {"crop": "fig"}}]}
    made = door.post("/v1/tickets", json=ticket, headers=ASKED)
    assert made.status_code == 201
    assert door.get(f"/v1/tickets/{made.json['number']}").status_code == 200
    told = door.post("/v1/diagnoses", json={"crop": "fig", "keep": True}, headers=ASKED)
    assert told.status_code == 422
    assert told.json["errors"][0]["pointer"] == "/keep"


def test_a_key_is_checked_without_a_browser_too(door: FlaskClient) -> None:
    assert door.post("/v1/diagnoses", json={"crop": "fig"}, headers={HEADER: KEY}).status_code == 200
    assert door.post("/v1/diagnoses", json={"crop": "fig"}, headers={HEADER: "wrong"}).status_code == 403
    assert door.get("/v1/stock", headers={HEADER: KEY}).status_code == 403


def test_our_own_pages_need_no_key(door: FlaskClient) -> None:
    own = {"Origin": "http://localhost"}
    assert door.post("/v1/diagnoses", json={"crop": "fig"}, headers=own).status_code == 200
    assert door.get("/v1/stock", headers=own).status_code == 200


def test_a_refused_question_can_be_read_at_its_fields(door: FlaskClient) -> None:
    told = door.post("/v1/diagnoses", json={"crop": "figg"}, headers=ASKED)
    assert told.status_code == 422
    assert told.headers["Access-Control-Allow-Origin"] == KIOSK
    assert told.json["errors"][0]["pointer"] == "/crop"


def test_without_listed_origins_no_answer_speaks_of_them(client: FlaskClient) -> None:
    told = client.post("/v1/diagnoses", json={"crop": "fig"}, headers={"Origin": KIOSK})
    assert told.status_code == 200
    assert cross_origin(told) == {}


def test_a_key_is_made_with_the_hash_that_the_settings_take() -> None:
    made = CliRunner().invoke(cli, ["kiosk", "key", "lobby"])
    key, setting = (line.strip() for line in made.output.splitlines()[1::2])
    assert setting == f"lobby:{hash_of(key)}"
    assert read_settings({"FRUITWRIGHT_KIOSK_KEYS": setting}).kiosk_keys == (setting,)
    assert CliRunner().invoke(cli, ["kiosk", "key", "Lobby 1"]).exit_code == 2
