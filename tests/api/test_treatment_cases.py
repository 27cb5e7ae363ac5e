"""The uses from file, asked as a client asks them: with products of the shelf, and with records in the request."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.commands.demo import demo_shelf
from service.domain.label import LabelRecord
from service.domain.plain_label import plain_record
from service.knowledge import strict_yaml
from service.parts import Parts
from service.settings import CHECKOUT
from service.storage.shelf import put_all, withdraw

CASES: Any = strict_yaml.read(Path(__file__).parents[1] / "cases" / "label.yaml")["cases"]
BY_NAME = pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])


@pytest.fixture(scope="module")
def records(app: Flask) -> dict[str, LabelRecord]:
    """The invented records by their ids."""
    house: Parts = app.extensions["fruitwright"]
    return {str(one.id): one for one in demo_shelf(CHECKOUT / "rules", house.rulebook.catalogue)}


@pytest.fixture
def shelf(app: Flask, records: Mapping[str, LabelRecord]) -> Iterator[None]:
    """The service with the invented shelf, taken off again afterwards."""
    house: Parts = app.extensions["fruitwright"]
    put_all(house.database, tuple(records.values()))
    yield
    for name in records:
        withdraw(house.database, name)


def verdict(client: FlaskClient, case: Any, products: list[Any]) -> str:
    """The verdict on the first product of a request."""
    told = client.post("/v1/treatment-pointers", json={**_plain(case["asked"]), "products": products})
    assert told.status_code == 200, told.text
    (product,) = told.json["answer"]["products"]
    return str(product["verdict"])


@BY_NAME
def test_a_product_of_the_shelf_gets_the_expected_verdict(client: FlaskClient, shelf: None, case: Any) -> None:
    assert verdict(client, case, [case["product"]]) == case["verdict"]


@BY_NAME
def test_a_record_in_the_request_gets_the_same_verdict(
    client: FlaskClient, records: Mapping[str, LabelRecord], case: Any
) -> None:
    asked = _plain(case["asked"])
    for past in asked.get("history", ()):
        past["product"] = _inline(records[past["product"]])
    assert verdict(client, {"asked": asked}, [_inline(records[case["product"]])]) == case["verdict"]


def test_a_pear_is_a_european_pear(client: FlaskClient, shelf: None) -> None:
    case = next(case for case in CASES if case["asked"]["crop"] == "european_pear")
    asked = {**_plain(case["asked"]), "crop": "pear"}
    assert verdict(client, {"asked": asked}, [case["product"]]) == case["verdict"]


def _inline(record: LabelRecord) -> dict[str, Any]:
    return {name: value for name, value in plain_record(record).items() if value is not None}


def _plain(value: Any) -> Any:
    """Values of a strict file as JSON takes them."""
    if isinstance(value, Mapping):
        return {name: _plain(one) for name, one in value.items()}
    return [_plain(one) for one in value] if isinstance(value, list | tuple) else value
