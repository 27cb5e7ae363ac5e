"""Active ingredients over the API."""

from __future__ import annotations

from dataclasses import fields
from urllib.parse import quote

import pytest
from flask.testing import FlaskClient

from service.api.actives import ActiveTold
from service.domain.treatment import Active
from service.reasoning.rulebook import Rulebook


def test_the_document_knows_every_field_of_an_active() -> None:
    assert {field.name for field in fields(Active)} | {"recalled"} == set(ActiveTold().fields)


def test_every_active_is_found_by_its_name(client: FlaskClient, rulebook: Rulebook) -> None:
    for name in rulebook.catalogue.label.actives:
        told = client.get(f"/v1/actives/{quote(name, safe='')}").json
        assert told is not None
        assert told["iso_name"] == name


@pytest.mark.parametrize(
    ("query", "names"),
    [
        ("name=Copper&kind=copper", 5),
        ("kind=antibiotic", 2),
        ("name=captan", 1),
        ("name=nothing", 0),
    ],
)
def test_actives_are_listed_by_name_and_kind(client: FlaskClient, query: str, names: int) -> None:
    assert len((client.get(f"/v1/actives?{query}").json or {})["items"]) == names


def test_what_is_recalled_is_said(client: FlaskClient) -> None:
    told = client.get("/v1/actives/captan").json or {}
    assert "farm_reentry_hours" in told["recalled"]
    assert "moa" not in told["recalled"]


def test_an_active_that_is_not_known_is_not_found(client: FlaskClient) -> None:
    assert client.get("/v1/actives/wishful").status_code == 404
