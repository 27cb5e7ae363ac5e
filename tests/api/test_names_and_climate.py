"""What a page needs before anybody asks: names to offer, and the climate of the store."""

from __future__ import annotations

from pathlib import Path

from flask import Flask
from flask.testing import FlaskClient

from service import create_app
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings


def test_every_cultivar_can_be_offered_with_its_crop(client: FlaskClient, rulebook: Rulebook) -> None:
    told = client.get("/v1/names").json
    crops = {one["id"] for one in told["crops"]}
    assert {one["id"] for one in told["cultivars"]} == set(rulebook.catalogue.cultivars)
    assert {one["crop"] for one in told["cultivars"]} <= crops


def test_names_stand_in_the_order_of_the_alphabet(client: FlaskClient) -> None:
    told = client.get("/v1/names").json
    for kind in ("crops", "cultivars", "rootstocks", "regions"):
        names = [one["name"].casefold() for one in told[kind]]
        assert names == sorted(names)


def test_names_are_not_sent_again_to_one_who_has_them(client: FlaskClient) -> None:
    tag = client.get("/v1/names").headers["ETag"]
    assert client.get("/v1/names", headers={"If-None-Match": tag}).status_code == 304


def test_the_climate_of_the_store_can_be_copied_into_a_question(client: FlaskClient) -> None:
    told = client.get("/v1/store-climate").json
    assert told["invented"]
    taken = ("hardiness_zone", "chill_hours", "chill_portions", "latitude", "last_spring_frost", "summer")
    site = {name: told[name] for name in taken}
    assert client.post("/v1/variety-suggestions", json={"site": site}).status_code == 200


def test_a_store_without_a_climate_says_so_with_nulls(rulebook: Rulebook, tmp_path: Path) -> None:
    settings = {"FRUITWRIGHT_STORE_CLIMATE": "none", "FRUITWRIGHT_DATABASE_URL": f"sqlite:///{tmp_path / 's.sqlite3'}"}
    app: Flask = create_app(read_settings(settings), rulebook)
    told = app.test_client().get("/v1/store-climate").json
    assert told["name"] is None
    assert told["chill_hours"] is None
    assert told["winters"] == []
