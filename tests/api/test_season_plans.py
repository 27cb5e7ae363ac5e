"""POST /v1/season-plans: what a client sees."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

PATH = "/v1/season-plans"
TREE: dict[str, Any] = {"crop": "peach", "age_years": 4, "canopy_ft": 10, "seen": {"full_bloom": "2026-03-12"}}
ASKED: dict[str, Any] = {"trees": [TREE], "start": "2026-03-20"}
DAILY = [
    {"date": f"2025-{month:02d}-{day:02d}", "min_c": 10 + 4 * (month > 4), "max_c": 22 + 8 * (month > 4)}
    for month in range(1, 13)
    for day in range(1, 29)
]


def answer(client: FlaskClient, **asked: Any) -> dict[str, Any]:
    told = client.post(PATH, json={**ASKED, **asked})
    assert told.status_code == 200, told.get_json()
    found: dict[str, Any] = told.get_json()["answer"]
    return found


def refused(client: FlaskClient, asked: dict[str, Any]) -> list[dict[str, str]]:
    told = client.post(PATH, json={**ASKED, **asked})
    assert told.status_code == 422
    errors: list[dict[str, str]] = told.get_json()["errors"]
    return errors


def test_a_crop_alone_is_enough_and_the_plan_begins_today(client: FlaskClient) -> None:
    told = client.post(PATH, json={"trees": [{"crop": "Peaches"}]})
    assert told.status_code == 200
    assert told.headers["Cache-Control"] == "no-store"
    assert told.get_json()["answer"]["trees"][0]["bloom"]["basis"] == "none"


def test_without_a_wish_the_plan_comes_as_json(client: FlaskClient) -> None:
    for wish in ({}, {"Accept": "*/*"}, {"Accept": "application/json, text/calendar;q=0.5"}):
        told = client.post(PATH, json=ASKED, headers=wish)
        assert told.content_type == "application/json"
        assert "Accept" in told.headers["Vary"].split(", ")


@pytest.mark.parametrize(
    ("wish", "kind", "start"),
    [
        ("text/calendar", "text/calendar; charset=utf-8", "BEGIN:VCALENDAR"),
        ("image/svg+xml", "image/svg+xml; charset=utf-8", "<svg "),
        ("text/html, image/*;q=0.9", "image/svg+xml; charset=utf-8", "<svg "),
    ],
)
def test_the_plan_comes_in_the_kind_that_is_wanted(client: FlaskClient, wish: str, kind: str, start: str) -> None:
    told = client.post(PATH, json=ASKED, headers={"Accept": wish})
    assert (told.status_code, told.content_type) == (200, kind)
    assert told.text.startswith(start)
    assert told.headers["Cache-Control"] == "no-store"


def test_another_kind_is_not_to_be_had(client: FlaskClient) -> None:
    told = client.post(PATH, json=ASKED, headers={"Accept": "application/pdf"})
    assert told.status_code == 406
    assert "text/calendar" in told.get_json()["detail"]


def test_a_fault_is_a_problem_whatever_kind_is_wanted(client: FlaskClient) -> None:
    told = client.post(PATH, json={"trees": [{"crop": "peech"}]}, headers={"Accept": "text/calendar"})
    assert (told.status_code, told.content_type) == (422, "application/problem+json")


def test_a_plan_is_kept_where_that_is_asked_for(client: FlaskClient) -> None:
    told = client.post(PATH, json={**ASKED, "keep": True}).get_json()
    kept = client.get(f"/v1/consultations/{told['consultation']}").get_json()
    assert kept["answer"]["answer"] == told["answer"]


def test_stages_follow_the_bloom_that_was_seen(client: FlaskClient) -> None:
    [tree] = answer(client)["trees"]
    [split] = [stage for stage in tree["stages"] if stage["stage"] == "shuck_split"]
    assert (split["from"], split["to"], split["basis"]) == ("2026-03-22", "2026-04-06", "observed")


def test_evapotranspiration_that_is_told_outweighs_that_from_temperatures(client: FlaskClient) -> None:
    climate = {"latitude": 38.5, "daily": DAILY}
    [tree] = answer(client, site={"climate": climate, "evapotranspiration": [{"month": 7, "in_a_day": 0.3}]})["trees"]
    assert {one["month"][5:]: one["basis"] for one in tree["water"]}["07"] == "given"
    assert {one["basis"] for one in tree["water"] if one["month"][5:] != "07"} == {"temperatures"}


@pytest.mark.parametrize(
    ("asked", "pointer"),
    [
        ({"trees": []}, "/trees"),
        ({"trees": [{"crop": "peach"}] * 13}, "/trees"),
        ({"trees": [{"age_years": 3}]}, "/trees/0/crop"),
        ({"trees": [{"crop": "peach"}, {"crop": "peech"}]}, "/trees/1/crop"),
        ({"trees": [{"crop": "apple", "cultivar": "Redhaven"}]}, "/trees/0/cultivar"),
        ({"trees": [{"crop": "peach", "canopy_ft": -2}]}, "/trees/0/canopy_ft"),
        ({"trees": [{"crop": "peach", "canopy_ft": 900}]}, "/trees/0/canopy_ft"),
        ({"trees": [{"crop": "peach"}, {"crop": "fig", "to_plant": True, "age_years": 5}]}, "/trees/1/to_plant"),
        ({"trees": [{"crop": "peach", "seen": {"stage": "shuck_split"}}]}, "/trees/0/seen/stage"),
        ({"trees": [{"crop": "peach", "seen": {"day": "2026-03-20"}}]}, "/trees/0/seen/day"),
        ({"trees": [{"crop": "fig", "seen": {"stage": "pit_hardening", "day": "2026-03-01"}}]}, "/trees/0/seen/stage"),
        ({"trees": [{"crop": "peach", "seen": {"full_bloom": "2026-03-21"}}]}, "/trees/0/seen/full_bloom"),
        ({"trees": [{"crop": "peach", "troubles": ["rust"]}]}, "/trees/0/troubles/0"),
        ({"start": "2026-02-30"}, "/start"),
        ({"site": {"region": "moon"}}, "/site/region"),
        ({"site": {"evapotranspiration": [{"month": 7, "in_a_day": 7}]}}, "/site/evapotranspiration/0/in_a_day"),
        ({"fertiliser_percent": 0}, "/fertiliser_percent"),
        ({"tree": {}}, "/tree"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(client: FlaskClient, asked: dict[str, Any], pointer: str) -> None:
    assert [one["pointer"] for one in refused(client, asked)] == [pointer]
