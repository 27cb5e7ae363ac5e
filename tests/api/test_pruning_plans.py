"""POST /v1/pruning-plans: what a client sees."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

PATH = "/v1/pruning-plans"


def refused(client: FlaskClient, asked: dict[str, Any]) -> list[dict[str, str]]:
    told = client.post(PATH, json=asked)
    assert told.status_code == 422
    errors: list[dict[str, str]] = told.get_json()["errors"]
    return errors


def test_the_crop_alone_is_enough(client: FlaskClient) -> None:
    told = client.post(PATH, json={"crop": "Peaches"})
    assert told.status_code == 200
    assert told.headers["Cache-Control"] == "no-store"
    assert told.get_json()["answer"]["crop"] == "peach"


def test_a_crop_must_be_named(client: FlaskClient) -> None:
    assert [one["pointer"] for one in refused(client, {"age_years": 4})] == ["/crop"]


def test_an_unknown_crop_is_refused_with_near_names(client: FlaskClient) -> None:
    assert refused(client, {"crop": "aprikot"}) == [
        {"pointer": "/crop", "detail": "no crop “aprikot” is known here; near names: apricot"}
    ]


def test_a_cultivar_of_another_crop_is_refused(client: FlaskClient) -> None:
    [error] = refused(client, {"crop": "apple", "cultivar": "Redhaven"})
    assert error["pointer"] == "/cultivar"


@pytest.mark.parametrize(
    ("asked", "pointer"),
    [
        ({"height_ft": -3}, "/height_ft"),
        ({"height_ft": 400}, "/height_ft"),
        ({"age_years": 0}, "/age_years"),
        ({"age_years": 3, "just_planted": True}, "/just_planted"),
        ({"height_ft": 3, "shoot_length_in": 90}, "/shoot_length_in"),
        ({"date": "2026-02-30"}, "/date"),
        ({"observations": ["dead wood"]}, "/observations/0"),
        ({"shared_hole": {"trees": 2, "heights_ft": [4, 5, 6]}}, "/shared_hole/heights_ft"),
        ({"site": {"rains_begin": "13-01"}}, "/site/rains_begin"),
        ({"site": {"latitude": 95}}, "/site/latitude"),
        ({"weather": {"dry_days_ahead": -1}}, "/weather/dry_days_ahead"),
        ({"maximum_height_ft": 8}, "/maximum_height_ft"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(client: FlaskClient, asked: dict[str, Any], pointer: str) -> None:
    assert [one["pointer"] for one in refused(client, {"crop": "peach", **asked})] == [pointer]


def test_the_largest_and_smallest_figures_are_answered(client: FlaskClient) -> None:
    big = {
        "crop": "apple", "age_years": 200, "height_ft": 120, "max_height_ft": 1, "shoot_length_in": 200,
        "years_unpruned": 200, "fruit_wanted": 5000, "shared_hole": {"trees": 12, "heights_ft": [120, 0.5]},
        "varieties": [{"name": "Gala", "shoot_length_in": 200}, {"name": "Braeburn", "shoot_length_in": 0.5}],
    }  # fmt: skip
    assert client.post(PATH, json=big).status_code == 200
    assert client.post(PATH, json={"crop": "apple", "height_ft": 0.5, "max_height_ft": 60}).status_code == 200


def test_a_series_of_temperatures_stands_in_for_zone_and_frost(client: FlaskClient) -> None:
    months = [{"month": month, "mean_f": 40 + 5 * min(month, 13 - month)} for month in range(1, 13)]
    asked = {"crop": "apple", "site": {"climate": {"latitude": 38, "monthly": months}}}
    assert client.post(PATH, json=asked).status_code == 200


def test_the_same_question_is_answered_with_the_same_bytes(client: FlaskClient) -> None:
    asked = {"crop": "peach", "date": "2026-02-20", "height_ft": 14, "max_height_ft": 9}
    assert client.post(PATH, json=asked).data == client.post(PATH, json=asked).data
