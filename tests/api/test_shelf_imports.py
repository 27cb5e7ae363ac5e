"""A whole shelf from a file: what would change is told first, and all of it is done or nothing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service import create_app
from service.reasoning.rulebook import Rulebook
from service.settings import CHECKOUT, read_settings
from service.storage.migration import upgrade
from tests.made_up_labels import label

AT, CSV = "/v1/shelf-imports", "text/csv"
DEMO = (CHECKOUT / "rules" / "demo" / "shelf.csv").read_bytes()


@pytest.fixture
def empty(rulebook: Rulebook, tmp_path: Path) -> Iterator[Flask]:
    """The service with a shelf of its own, on which nothing stands yet."""
    app = create_app(read_settings({"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{tmp_path / 'store.sqlite3'}"}), rulebook)
    database = app.extensions["fruitwright"].database
    upgrade(database)
    yield app
    database.close()


@pytest.fixture
def client(empty: Flask) -> FlaskClient:
    """A client of it."""
    return empty.test_client()


def sent(client: FlaskClient, body: bytes, *, dry_run: bool = False) -> dict[str, Any]:
    answer = client.post(f"{AT}?dry_run={str(dry_run).lower()}", data=body, content_type=CSV)
    assert answer.status_code == 200, answer.text
    return dict(answer.json or {})


def on_shelf(client: FlaskClient) -> list[dict[str, Any]]:
    return list((client.get("/v1/shelf-products?limit=200").json or {})["items"])


def test_a_dry_run_tells_and_changes_nothing(client: FlaskClient) -> None:
    told = sent(client, DEMO, dry_run=True)
    assert (told["dry_run"], told["new"], told["changed"], told["unchanged"]) == (True, 25, 0, 0)
    assert on_shelf(client) == []


def test_the_invented_shelf_goes_in_whole_and_nothing_is_found_in_it(client: FlaskClient) -> None:
    assert sent(client, DEMO)["new"] == 25
    shelf = on_shelf(client)
    assert len(shelf) == 25
    assert [one["findings"] for one in shelf if one["findings"]] == []
    assert all(one["label"]["demo"] for one in shelf)


def test_what_the_shelf_is_written_into_changes_nothing_when_it_is_read(client: FlaskClient) -> None:
    sent(client, DEMO)
    written = client.get("/v1/shelf-exports")
    assert written.mimetype == CSV
    assert "attachment" in written.headers["Content-Disposition"]
    told = sent(client, written.data)
    assert (told["new"], told["changed"], told["unchanged"]) == (0, 0, 25)


def test_a_change_is_told_field_by_field_before_it_is_made(client: FlaskClient) -> None:
    sent(client, DEMO)
    body = b"id,product_name\nDP01,Renamed (invented)\nP-9,New (invented)\n"
    told = sent(client, body, dry_run=True)
    by_id = {one["id"]: one for one in told["products"]}
    assert (by_id["DP01"]["does"], by_id["DP01"]["version"], by_id["P-9"]["does"]) == ("changed", 2, "new")
    fields = {one["field"]: one for one in by_id["DP01"]["changes"]}
    assert fields["product_name"]["after"] == "Renamed (invented)"
    assert fields["sites.0.crops"] == {"field": "sites.0.crops", "before": ["apple"], "after": None}
    assert "DP02" in told["kept_besides"]
    assert len(on_shelf(client)) == 25
    assert sent(client, body)["products"] == told["products"]
    assert len(on_shelf(client)) == 26
    assert (client.get("/v1/label-versions/DP01/1").json or {})["label"]["product_name"] != "Renamed (invented)"


def test_a_withdrawn_product_returns(client: FlaskClient) -> None:
    sent(client, DEMO)
    client.delete("/v1/shelf-products/DP05")
    told = sent(client, DEMO)
    assert [one["id"] for one in told["products"] if one["does"] == "returns"] == ["DP05"]
    assert len(on_shelf(client)) == 25


def test_one_fault_keeps_everything_out(client: FlaskClient) -> None:
    body = b"id,product_name,sites.crop_as_printed,sites.crops\nP-1,Good,apple,apple\nP-2,Bad,cherry,cherry\n"
    refused = client.post(AT, data=body, content_type=CSV)
    assert refused.status_code == 422
    (fault,) = (refused.json or {})["errors"]
    assert fault["pointer"] == "/3/sites.crops"
    assert fault["detail"].startswith("Row 3, column sites.crops: ")
    assert on_shelf(client) == []


def test_a_rate_in_a_file_is_not_kept(client: FlaskClient) -> None:
    body = b"id,sites.crop_as_printed,sites.rate_text\nP-1,apple,2 tbsp per gallon\n"
    told = sent(client, body)
    assert [one["pointer"] for one in told["products"][0]["notes"]] == ["/sites/0/rate_text"]
    assert "tbsp" not in client.get("/v1/shelf-exports").text


def test_products_come_as_json_as_well(client: FlaskClient) -> None:
    told = client.post(AT, json={"products": [label(id="P-1"), label(id="P-2")]}).json or {}
    assert (told["new"], [one["findings"] for one in told["products"]]) == (2, [[], []])
    faulty = client.post(AT, json={"products": [label(id="P-1", signal_word="X"), label()]})
    assert [one["pointer"] for one in (faulty.json or {})["errors"]] == ["/products/0/signal_word"]


def test_another_kind_of_file_is_refused(client: FlaskClient) -> None:
    assert client.post(AT, data=b"<x/>", content_type="text/xml").status_code == 415
