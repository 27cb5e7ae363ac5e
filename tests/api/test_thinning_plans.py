"""POST /v1/thinning-plans: what a client sees."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from service.api.thinning_plans import read_question
from service.questions.thinning import ThinningQuestion

PATH = "/v1/thinning-plans"
YARD = {"length_in": 36, "diameter_in": 0.6, "fruit": 48}


def refused(client: FlaskClient, asked: dict[str, Any]) -> list[dict[str, str]]:
    told = client.post(PATH, json=asked)
    assert told.status_code == 422
    errors: list[dict[str, str]] = told.get_json()["errors"]
    return errors


def read(client: FlaskClient, asked: dict[str, Any]) -> ThinningQuestion:
    with client.application.app_context():
        return read_question(asked)


def test_the_crop_alone_is_enough_and_nothing_is_stored(client: FlaskClient) -> None:
    told = client.post(PATH, json={"crop": "Peaches"})
    assert told.status_code == 200
    assert told.headers["Cache-Control"] == "no-store"
    assert told.get_json()["answer"]["crop"] == "peach"
    assert "consultation" not in told.get_json()


def test_a_crop_must_be_named(client: FlaskClient) -> None:
    assert [one["pointer"] for one in refused(client, {"branches": [YARD]})] == ["/crop"]


@pytest.mark.parametrize(
    ("asked", "pointer"),
    [
        ({"branches": [{"length_in": -36, "fruit": 4}]}, "/branches/0/length_in"),
        ({"branches": [{"length_in": 36, "fruit": -4}]}, "/branches/0/fruit"),
        ({"branches": [YARD, {"length_in": 3, "fruit": 400}]}, "/branches/1/fruit"),
        ({"branches": [{"fruit": 4, "places": 9}]}, "/branches/0/places"),
        ({"branches": [YARD], "fruit": 20}, "/fruit"),
        ({"height_ft": 6, "lowest_branch_ft": 7}, "/lowest_branch_ft"),
        ({"trunk_girth_in": 0}, "/trunk_girth_in"),
        ({"age_years": 0}, "/age_years"),
        ({"set": "lots"}, "/set"),
        ({"stage": "pink"}, "/stage"),
        ({"days_after_full_bloom": 900}, "/days_after_full_bloom"),
        ({"varieties": [{"branches": [{"length_in": 3, "fruit": 400}]}, {}]}, "/varieties/0/branches/0/fruit"),
        ({"varieties": [{"fruit": 5}], "fruit": 9}, "/fruit"),
        ({"cultivar": "Redhavn"}, "/cultivar"),
        ({"varieties": [{}, {"cultivar": "Redhavn"}]}, "/varieties/1/cultivar"),
        ({"brances": []}, "/brances"),
    ],
)
def test_what_cannot_be_is_refused_at_its_place(client: FlaskClient, asked: dict[str, Any], pointer: str) -> None:
    assert [one["pointer"] for one in refused(client, {"crop": "peach", **asked})] == [pointer]


def test_one_variety_among_varieties_is_pointed_at_by_its_place(client: FlaskClient) -> None:
    [error] = refused(client, {"crop": "peach", "varieties": [{"branches": [{"length_in": 3, "fruit": 400}]}]})
    assert error["pointer"] == "/varieties/0/branches/0/fruit"


def test_nulls_are_unknown(client: FlaskClient) -> None:
    bare, nulls = ({"crop": "peach"}, {"crop": "peach", "fruit": None, "branches": None, "varieties": None,
                                       "age_years": None, "fruit_diameter_in": None})  # fmt: skip
    assert read(client, nulls) == read(client, bare)


def test_inches_of_fruit_become_the_millimetres_of_the_sources(client: FlaskClient) -> None:
    moment = read(client, {"crop": "peach", "fruit_diameter_in": 0.75}).moment
    assert moment.fruit_diameter_mm == pytest.approx(19.05)


def test_each_variety_has_a_plan_of_its_own(client: FlaskClient) -> None:
    varieties = [{"cultivar": "Liberty", "fruit": 120}, {"cultivar": "GoldRush", "fruit": 90}]
    answer = client.post(PATH, json={"crop": "apple", "varieties": varieties}).get_json()["answer"]
    assert {one["name"] for one in answer["varieties"]} == {"Liberty", "GoldRush"}
    assert answer["fruit"] == 210


def test_a_plan_is_kept_when_it_is_asked_to_be(client: FlaskClient) -> None:
    told = client.post(PATH, json={"crop": "peach", "branches": [YARD], "keep": True}).get_json()
    kept = client.get(f"/v1/consultations/{told['consultation']}").get_json()
    assert kept["answer"]["answer"] == told["answer"]
