"""The trees in stock over the API: entered, counted anew, taken from a file, and looked at by planting lists."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from flask import Flask
from flask.testing import FlaskClient

from service import create_app
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings
from service.storage.migration import upgrade

STOCK, IMPORTS, EXPORTS, CSV = "/v1/stock", "/v1/stock-imports", "/v1/stock-exports", "text/csv"
GALA = {"id": "GALA-M7", "crop": "apple", "cultivar": "Gala", "rootstock": "M7", "quantity": 14, "size": "5 gal",
        "price": 39.9, "currency": "USD"}  # fmt: skip
FILE = b"id,crop,cultivar,rootstock,quantity,size,price\nG,apple,Gala,M.7,14,5 gal,39.90\nF,,fig.mission,,8,=HYPER,\n"


@pytest.fixture
def empty(rulebook: Rulebook, tmp_path: Path) -> Iterator[Flask]:
    """The service with a stock of its own, in which nothing stands yet."""
    settings = {"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{tmp_path / 'store.sqlite3'}", "FRUITWRIGHT_MATCHER": "plain"}
    app = create_app(read_settings(settings), rulebook)
    database = app.extensions["fruitwright"].database
    upgrade(database)
    yield app
    database.close()


@pytest.fixture
def client(empty: Flask) -> FlaskClient:
    """A client of it."""
    return empty.test_client()


def sent(client: FlaskClient, body: bytes, query: str = "", kind: str = CSV) -> dict[str, Any]:
    told = client.post(IMPORTS + query, data=body, content_type=kind)
    assert told.status_code == 200, told.text
    return dict(told.json or {})


def refused(client: FlaskClient, body: bytes) -> list[tuple[str, str]]:
    told = client.post(IMPORTS, data=body, content_type=CSV)
    assert told.status_code == 422, told.text
    return [(one["pointer"], one["detail"]) for one in (told.json or {})["errors"]]


def in_stock(client: FlaskClient) -> dict[str, int]:
    return {one["id"]: one["quantity"] for one in (client.get(STOCK + "?limit=200").json or {})["items"]}


def test_trees_are_entered_by_name_and_kept_by_id(client: FlaskClient) -> None:
    told = client.post(STOCK, json=GALA)
    assert told.status_code == 201
    assert told.headers["Location"] == f"{STOCK}/GALA-M7"
    entry = client.get(f"{STOCK}/GALA-M7").json or {}
    assert (entry["cultivar"], entry["rootstock"], entry["rootstock_name"]) == ("apple.gala", "m_7", "M.7")
    assert (entry["price"], entry["currency"], entry["version"], entry["crop"]) == (39.9, "USD", 1, "apple")


def test_a_name_that_two_crops_have_is_asked_back(client: FlaskClient) -> None:
    told = client.post(STOCK, json={"cultivar": "Gala", "quantity": 1})
    (fault,) = (told.json or {})["errors"]
    assert (told.status_code, fault["pointer"]) == (422, "/cultivar")
    assert "apple.gala" in fault["detail"]


def test_a_near_miss_is_offered_and_not_assumed(client: FlaskClient) -> None:
    told = client.post(STOCK, json={"cultivar": "Honeycrips", "quantity": 1})
    assert told.status_code == 422
    assert "did you mean “Honeycrisp”?" in told.text
    assert in_stock(client) == {}


def test_a_rootstock_of_another_crop_is_refused(client: FlaskClient) -> None:
    told = client.post(STOCK, json={**GALA, "rootstock": "Mahaleb"})
    assert [one["pointer"] for one in (told.json or {})["errors"]] == ["/rootstock"]


def test_an_id_is_entered_once_and_a_repeat_under_a_key_as_well(client: FlaskClient) -> None:
    assert client.post(STOCK, json=GALA).status_code == 201
    assert client.post(STOCK, json=GALA).status_code == 409
    without = {name: value for name, value in GALA.items() if name != "id"}
    first, again = (client.post(STOCK, json=without, headers={"Idempotency-Key": "till-3"}) for _ in range(2))
    assert (first.json or {})["id"] == (again.json or {})["id"]
    other = client.post(STOCK, json={**without, "quantity": 2}, headers={"Idempotency-Key": "till-3"})
    assert other.status_code == 422
    assert len(in_stock(client)) == 2


def test_two_counts_at_once_learn_of_each_other(client: FlaskClient) -> None:
    client.post(STOCK, json=GALA)
    assert client.put(f"{STOCK}/GALA-M7?based_on=1", json={**GALA, "quantity": 12}).status_code == 200
    assert client.put(f"{STOCK}/GALA-M7?based_on=1", json={**GALA, "quantity": 13}).status_code == 409
    assert in_stock(client) == {"GALA-M7": 12}


def test_an_entry_is_taken_out(client: FlaskClient) -> None:
    client.post(STOCK, json=GALA)
    assert client.delete(f"{STOCK}/GALA-M7").status_code == 204
    assert client.get(f"{STOCK}/GALA-M7").status_code == 404
    assert client.delete(f"{STOCK}/GALA-M7").status_code == 404
    assert client.put(f"{STOCK}/GALA-M7", json=GALA).status_code == 404


def test_stock_is_listed_by_crop(client: FlaskClient) -> None:
    sent(client, FILE)
    assert [one["id"] for one in (client.get(STOCK + "?crop=higo").json or {})["items"]] == ["F"]
    assert [one["id"] for one in (client.get(STOCK + "?cultivar=apple.gala").json or {})["items"]] == ["G"]


def test_a_dry_run_tells_and_changes_nothing(client: FlaskClient) -> None:
    told = sent(client, FILE, "?dry_run=true")
    assert (told["dry_run"], told["new"], [one["does"] for one in told["entries"]]) == (True, 2, ["new", "new"])
    assert in_stock(client) == {}


def test_a_file_tells_field_by_field_what_it_changes(client: FlaskClient) -> None:
    sent(client, FILE)
    told = sent(client, b"id,cultivar,quantity\nF,fig.mission,6\nN,fig.celeste,1\n", "?dry_run=true")
    changes = {one["field"]: (one["before"], one["after"]) for one in told["entries"][0]["changes"]}
    assert changes == {"quantity": (8, 6), "size": ("=HYPER", None)}
    assert (told["new"], told["changed"], told["kept_besides"], told["taken_out"]) == (1, 1, ["G"], [])


def test_the_whole_stock_takes_out_what_it_does_not_name(client: FlaskClient) -> None:
    sent(client, FILE)
    assert sent(client, b"id,cultivar,quantity\nF,fig.mission,6\n", "?whole=true")["taken_out"] == ["G"]
    assert in_stock(client) == {"F": 6}


def test_what_the_stock_is_written_into_changes_nothing_and_runs_nothing(client: FlaskClient) -> None:
    sent(client, FILE)
    written = client.get(EXPORTS)
    assert "attachment" in written.headers["Content-Disposition"]
    assert "'=HYPER" in written.text
    assert sent(client, written.data, "?whole=true")["unchanged"] == 2


def test_a_workbook_does_as_well(client: FlaskClient) -> None:
    book, out = openpyxl.Workbook(), io.BytesIO()
    for row in (("ID", "Cultivar", "Quantity", "Price", "Currency"), ("F", "fig.mission", 8, 29.5, "usd")):
        book.worksheets[0].append(row)
    book.save(out)
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    assert sent(client, out.getvalue(), kind=kind)["new"] == 1
    assert (client.get(f"{STOCK}/F").json or {})["price"] == 29.5


def test_every_fault_is_told_at_its_cell_and_keeps_everything_out(client: FlaskClient) -> None:
    body = b"id,cultivar,quantity,price\nA,fig.mission,8,\nB,Honeycrips,two,\nA,fig.celeste,1,-5\nC,fig.celeste,1,$9\n"
    assert [pointer for pointer, _ in sorted(refused(client, body))] == [
        "/3/cultivar", "/3/quantity", "/4/price", "/5/price",
    ]  # fmt: skip
    assert in_stock(client) == {}


def test_an_id_that_stands_twice_is_told(client: FlaskClient) -> None:
    (fault,) = refused(client, b"id,cultivar,quantity\nA,fig.mission,8\nA,fig.celeste,1\n")
    assert fault == ("/3/id", "Row 3, column id: this id stands in row 2 already")


@pytest.mark.parametrize(
    ("body", "says"),
    [
        (b"", "empty"),
        (b"id,cultivar\nA,fig.mission\n", "quantity must be among them"),
        (b"id,cultivar,quantity,colour\n", "no such column"),
        (b"id,id,cultivar,quantity\n", "stands twice"),
        (b"id,cultivar,quantity\n", "holds no trees"),
        (b"id,cultivar,quantity\nA,fig.mission,8,9\n", "under no column"),
    ],
)
def test_a_table_that_is_none_is_told_so(client: FlaskClient, body: bytes, says: str) -> None:
    assert any(says in detail for _, detail in refused(client, body))


def test_json_tells_its_faults_at_the_entry(client: FlaskClient) -> None:
    entries = [GALA, {**GALA, "cultivar": "Galla"}, {**GALA, "id": "X", "price": None}]
    told = client.post(IMPORTS, json={"entries": entries})
    assert [one["pointer"] for one in (told.json or {})["errors"]] == [
        "/entries/1/id", "/entries/1/cultivar", "/entries/2/currency",
    ]  # fmt: skip


def test_a_planting_list_is_checked_against_the_stock(client: FlaskClient) -> None:
    asked = {"text": "3 Mission fig\n2 Celeste fig", "site": {"hardiness_zone": "8b"}}
    unknown = (client.post("/v1/planting-lists", json=asked).json or {})["answer"]["lines"][0]["judged"][0]
    assert (unknown["in_stock"], unknown["short_by"]) == (None, None)
    sent(client, b"id,cultivar,quantity\nF,fig.mission,2\n")
    lines = (client.post("/v1/planting-lists", json=asked).json or {})["answer"]["lines"]
    judged = [line["judged"][0] for line in lines]
    assert [(one["in_stock"], one["short_by"]) for one in judged] == [(2, 1), (0, 2)]
    assert judged[1]["substitutes"]


def test_a_planting_list_is_checked_without_a_database_as_well(rulebook: Rulebook, tmp_path: Path) -> None:
    settings = {"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{tmp_path / 'none.sqlite3'}", "FRUITWRIGHT_MATCHER": "plain"}
    client = create_app(read_settings(settings), rulebook).test_client()
    told = client.post("/v1/planting-lists", json={"text": "Mission fig"})
    assert told.status_code == 200
    assert (told.json or {})["answer"]["lines"][0]["judged"][0]["in_stock"] is None
