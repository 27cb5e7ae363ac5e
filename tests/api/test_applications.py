"""What a client of the log of applications sees: entries added, corrected by further ones, never changed."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.parts import Parts
from service.storage.shelf import add_product, withdraw
from tests.questions.made_up_labels import record

OIL = record("mineral oil", id="T71", product_name="Invented Oil")


@pytest.fixture(scope="module", autouse=True)
def _on_the_shelf(app: Flask) -> Any:
    house: Parts = app.extensions["fruitwright"]
    add_product(house.database, OIL)
    yield
    withdraw(house.database, "T71")


def log(client: FlaskClient, *, key: str | None = None, status: int = 201, **entry: Any) -> dict[str, Any]:
    headers = {} if key is None else {"Idempotency-Key": key}
    told = client.post("/v1/applications", json={"date": "2025-04-20", **entry}, headers=headers)
    assert told.status_code == status, told.text
    written: dict[str, Any] = told.json
    return written


def entries(client: FlaskClient, reference: str) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = client.get("/v1/applications", query_string={"reference": reference}).json["items"]
    return items


def test_an_entry_notes_the_product_as_it_stands(client: FlaskClient) -> None:
    written = log(client, reference="a1", product="T71", crop="Apple")
    assert (written["product"], written["version"], written["actives"]) == ("T71", 1, ["mineral oil"])
    assert (written["product_name"], written["crop"], written["counts"]) == ("Invented Oil", "apple", True)
    assert client.get(f"/v1/applications/{written['id']}").json == written
    assert entries(client, "a1") == [written]


def test_actives_are_enough_where_the_product_is_not_on_the_shelf(client: FlaskClient) -> None:
    written = log(client, reference="a2", actives=["Captan"])
    assert (written["product"], written["actives"]) == (None, ["captan"])


def test_a_correction_stands_in_the_place_of_what_it_corrects(client: FlaskClient) -> None:
    wrong = log(client, reference="a3", product="T71")
    right = log(client, reference="a3", date="2025-04-21", corrects=wrong["id"])
    assert (right["product"], right["date"], right["corrects"]) == ("T71", "2025-04-21", wrong["id"])
    assert [(one["id"], one["counts"]) for one in entries(client, "a3")] == [(wrong["id"], False), (right["id"], True)]
    refused = log(client, status=422, reference="a3", corrects=wrong["id"])
    assert [one["pointer"] for one in refused["errors"]] == ["/corrects"]


def test_what_never_happened_counts_no_more(client: FlaskClient) -> None:
    wrong = log(client, reference="a4", product="T71")
    log(client, reference="a4", corrects=wrong["id"], did_not_happen=True)
    assert [one["counts"] for one in entries(client, "a4")] == [False, False]


def test_the_same_key_writes_once(client: FlaskClient) -> None:
    first = log(client, key="till-9", reference="a5", product="T71")
    assert log(client, key="till-9", reference="a5", product="T71") == first
    assert len(entries(client, "a5")) == 1
    other = log(client, key="till-9", status=422, reference="a5", actives=["captan"])
    assert [one["pointer"] for one in other["errors"]] == ["/Idempotency-Key"]


TOMORROW_AND_MORE = (datetime.now(UTC) + timedelta(days=3)).date().isoformat()


@pytest.mark.parametrize(
    ("entry", "pointer"),
    [
        ({}, "/product"),
        ({"product": "T99"}, "/product"),
        ({"actives": ["no such active"]}, "/actives/0"),
        ({"product": "T71", "crop": "bananas"}, "/crop"),
        ({"product": "T71", "date": TOMORROW_AND_MORE}, "/date"),
        ({"corrects": "no-such-entry"}, "/corrects"),
        ({"did_not_happen": True}, "/corrects"),
        ({"product": "T71", "reference": "a person's name"}, "/reference"),
    ],
)
def test_what_cannot_be_logged_is_pointed_at(client: FlaskClient, entry: dict[str, Any], pointer: str) -> None:
    refused = log(client, status=422, **{"reference": "a6", **entry})
    assert [one["pointer"] for one in refused["errors"]] == [pointer]


def test_an_entry_of_another_tree_is_not_corrected(client: FlaskClient) -> None:
    theirs = log(client, reference="a7", product="T71")
    refused = log(client, status=422, reference="a8", corrects=theirs["id"])
    assert [one["pointer"] for one in refused["errors"]] == ["/corrects"]


def test_entries_are_never_changed_or_taken_away(client: FlaskClient) -> None:
    written = log(client, reference="a9", product="T71")
    for method in ("put", "patch", "delete"):
        assert getattr(client, method)(f"/v1/applications/{written['id']}").status_code == 405
    assert client.get("/v1/applications/none-such").status_code == 404
    assert client.get("/v1/applications").status_code == 422


def test_a_log_comes_in_pages_in_the_order_of_writing(client: FlaskClient) -> None:
    written = [log(client, reference="a10", product="T71")["id"] for _ in range(3)]
    first = client.get("/v1/applications", query_string={"reference": "a10", "limit": 2}).json
    rest = client.get(
        "/v1/applications", query_string={"reference": "a10", "limit": 2, "cursor": first["next_cursor"]}
    ).json
    assert [one["id"] for one in (*first["items"], *rest["items"])] == written
    assert rest["next_cursor"] is None
