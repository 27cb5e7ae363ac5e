"""Real answers hold every field that the document promises and none that it does not know."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from openapi_schema_validator import OAS31Validator

from service.api.document import document_of

SITE = {
    "hardiness_zone": "7b",
    "chill_hours": 900,
    "last_spring_frost": "04-10",
    "first_autumn_frost": "10-28",
    "width_ft": 30,
    "depth_ft": 20,
    "max_height_ft": 12,
    "sun_hours": 8,
    "drainage": "moderate",
}
SITE_SICK = {"hardiness_zone": "7b", "chill_hours": 300, "sun_hours": 5, "drainage": "poor", "soil_ph": 8.1}
QUESTIONS: list[dict[str, Any]] = [
    {},
    {"site": SITE, "wishes": {"max_trees": 3, "harvest_months": [7, 8, 9]}},
    {"site": SITE, "consider": ["Honeycrisp", "Golden Delicious"], "existing_trees": [{"cultivar": "Liberty"}]},
    {"site": {"hardiness_zone": "4a", "chill_hours": 150}, "language": "es", "set_aside_limit": 1000, "limit": 50},
]
PRUNING: list[dict[str, Any]] = [
    {"crop": "peach"},
    {"crop": "apricot", "date": "2026-01-15", "site": {"hardiness_zone": "9a", "rains_begin": "10-20"}},
    {"crop": "apple", "date": "2026-02-10", "height_ft": 22, "max_height_ft": 11, "years_unpruned": 8,
     "observations": ["dead_wood", "water_sprouts", "fire_blight"], "weather": {"wet": False, "dry_days_ahead": 4}},
    {"crop": "apple", "training": "horizontal_tiers", "date": "2026-05-20", "language": "es", "vigour": "strong"},
    {"crop": "apple", "date": "2026-07-01", "site": {"latitude": -38, "hardiness_zone": "9b"},
     "varieties": [{"name": "Gala", "shoot_length_in": 40}, {"name": "Braeburn", "shoot_length_in": 12}]},
]  # fmt: skip

DIAGNOSES: list[dict[str, Any]] = [
    {"crop": "fig"},
    {"crop": "japanese_plum", "stage": "shoot_growth", "suspected": ["peach_leaf_curl"],
     "signs": {"present": ["lf_curl_tight"], "absent": ["lf_thick_pucker"], "cannot_tell": ["fr_bladder"]}},
    {"crop": "apple", "cultivar": "Honeycrisp", "complaint": "bloom_no_fruit", "existing_trees": [], "site": SITE_SICK,
     "bloom": {"frost": True, "amount": "full", "bees": False}, "date": "2026-06-01", "language": "es"},
    {"crop": "peach", "words": "leaves are thick and red and curled", "weather": {"wet_spring": True, "wet_periods": [
        {"stage": "bloom", "hours": 20, "mean_f": 50, "rain_in": 1}]}, "care": {"dormant_spray": False}},
    {"crop": "apple", "stage": "ripening", "signs": {"present": ["fr_trails", "fr_maggots"]}},
]  # fmt: skip

SEASON: list[dict[str, Any]] = [
    {"trees": [{"crop": "quince"}]},
    {"trees": [{"crop": "apricot", "age_years": 6, "canopy_ft": 14, "trunk_girth_in": 18, "floor": "grass"},
               {"crop": "peach", "cultivar": "Redhaven", "seen": {"full_bloom": "2026-03-12"}, "to_plant": False}],
     "start": "2026-03-20", "fertiliser_percent": 21, "plan": "garden-17",
     "site": {"hardiness_zone": "9b", "last_spring_frost": "03-10", "region": "california_central_valley",
              "soil": "loam", "evapotranspiration": [{"month": 7, "in_a_day": 0.27}]}},
    {"trees": [{"crop": "apple", "seen": {"neighbour": {"full_bloom": "2026-04-02", "higher_ft": 400}}}],
     "start": "2026-11-25", "language": "es", "site": {"hardiness_zone": "5a", "last_spring_frost": "05-10"}},
    {"trees": [{"crop": "european_pear", "age_years": 1}], "start": "2026-06-25", "site": {"latitude": -38}},
]  # fmt: skip

PLANTING_LISTS: list[dict[str, Any]] = [
    {"text": "Gala apple"},
    {"text": "2x Honeycrisp on M.9 $39.99 each\nGalla apple\n3-in-1: Liberty / Freedom / Zzyxqv\nBartlett on Quince A",
     "site": SITE, "existing_trees": [], "state": "WA", "wishes": {"max_trees": 3, "harvest_months": [6, 9]}},
    {"rows": [{"variety": "Bing", "crop": "cherry", "quantity": 9, "size": "5 gal, 4-5 ft", "note": "by the gate"},
              {"variety": "Elberta", "rootstock": "M.9", "price": "12,50"}, {"note": "thank you"}],
     "site": {"hardiness_zone": "9b", "chill_hours": 250, "width_ft": 10, "depth_ft": 10}, "language": "es"},
    {"text": ""},
]  # fmt: skip


@pytest.fixture(scope="module")
def strict(app: Flask) -> dict[str, Any]:
    """The document with every object closed, so that a field that it does not know is a fault."""
    document = deepcopy(document_of(app.extensions["fruitwright_api"]))
    for schema in document["components"]["schemas"].values():
        schema["additionalProperties"] = False
    return document


def faults(document: dict[str, Any], path: str, method: str, told: object) -> list[str]:
    schema = document["paths"][path][method]["responses"]["200"]["content"]["application/json"]["schema"]
    validator = OAS31Validator({**schema, "components": document["components"]})
    return [f"{fault.json_path}: {fault.message[:200]}" for fault in validator.iter_errors(told)][:10]


@pytest.mark.parametrize("question", QUESTIONS, ids=["nothing known", "a plot", "named cultivars", "in Spanish"])
def test_the_variety_question(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/variety-suggestions", json=question)
    assert told.status_code == 200
    assert faults(strict, "/v1/variety-suggestions", "post", told.json) == []


@pytest.mark.parametrize("question", PRUNING, ids=["nothing known", "too early", "overgrown", "tiers", "grafted"])
def test_the_pruning_question(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/pruning-plans", json=question)
    assert told.status_code == 200
    assert faults(strict, "/v1/pruning-plans", "post", told.json) == []


@pytest.mark.parametrize("question", PLANTING_LISTS, ids=["one tree", "a plot", "rows", "nothing"])
def test_the_planting_list(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/planting-lists", json=question)
    assert told.status_code == 200
    assert faults(strict, "/v1/planting-lists", "post", told.json) == []


@pytest.mark.parametrize("question", DIAGNOSES, ids=["nothing known", "signs", "complaint", "words", "regulated"])
def test_the_diagnosis_question(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/diagnoses", json=question)
    assert told.status_code == 200
    assert faults(strict, "/v1/diagnoses", "post", told.json) == []


@pytest.mark.parametrize("question", SEASON, ids=["nothing known", "two trees", "in Spanish", "in the south"])
def test_the_season_question(client: FlaskClient, strict: dict[str, Any], question: dict[str, Any]) -> None:
    told = client.post("/v1/season-plans", json=question)
    assert told.status_code == 200
    assert faults(strict, "/v1/season-plans", "post", told.json) == []


@pytest.mark.parametrize("name", ["crops", "cultivars", "rootstocks", "rules", "sources"])
def test_every_entry_of_every_list(client: FlaskClient, strict: dict[str, Any], name: str) -> None:
    query, pages = {"limit": "200"}, 0
    while True:
        told = client.get(f"/v1/{name}", query_string=query).json
        assert faults(strict, f"/v1/{name}", "get", told) == []
        pages += 1
        if told["next_cursor"] is None:
            break
        query["cursor"] = told["next_cursor"]
    assert pages >= 1


def test_every_rule_in_full(client: FlaskClient, strict: dict[str, Any]) -> None:
    rules = client.application.extensions["fruitwright"].rulebook.rules
    path = "/v1/rules/{rule}"
    found = {rule: faults(strict, path, "get", client.get(f"/v1/rules/{rule}").json) for rule in rules}
    assert {rule: said for rule, said in found.items() if said} == {}


@pytest.mark.parametrize("path", ["/livez", "/healthz", "/readyz"])
def test_what_operators_ask(client: FlaskClient, strict: dict[str, Any], path: str) -> None:
    assert faults(strict, path, "get", client.get(path).json) == []


def test_a_kept_consultation(client: FlaskClient, strict: dict[str, Any]) -> None:
    told = client.post("/v1/variety-suggestions", json={"site": SITE, "limit": 1, "keep": True}).json
    assert faults(strict, "/v1/variety-suggestions", "post", told) == []
    kept = client.get(f"/v1/consultations/{told['consultation']}").json
    assert faults(strict, "/v1/consultations/{consultation}", "get", kept) == []
