"""The variety question over the API: what it takes, what it refuses, in which words it answers."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from service.api.field_kinds import Within
from service.api.variety_suggestions import SiteAsked
from service.reasoning.rulebook import Rulebook

ADDRESS = "/v1/variety-suggestions"


def told(client: FlaskClient, question: dict[str, Any]) -> dict[str, Any]:
    response = client.post(ADDRESS, json=question)
    assert response.status_code == 200, response.text
    assert response.headers["Cache-Control"] == "no-store"
    return dict(response.json)


def refused(client: FlaskClient, question: object) -> dict[str, str]:
    response = client.post(ADDRESS, json=question)
    assert response.status_code == 422
    assert response.mimetype == "application/problem+json"
    return {fault["pointer"]: fault["detail"] for fault in response.json["errors"]}


def test_nothing_needs_to_be_known(client: FlaskClient) -> None:
    said = told(client, {})
    assert said["answer"]["suggestions"]
    assert {"fact": "site.hardiness_zone"}.items() <= said["not_judged"][0].items()


def test_a_null_is_as_unknown_as_a_missing_field(client: FlaskClient) -> None:
    nulls = {"site": {"chill_hours": None, "hardiness_zone": None, "climate": None}, "wishes": None, "limit": None}
    assert told(client, nulls) == told(client, {})


def test_every_wrong_field_is_named(client: FlaskClient) -> None:
    site = {"hardiness_zone": "hot", "width_ft": 0, "drainage": "fast", "soil_ph": "sour", "chill_hours": -1}
    assert set(refused(client, {"site": site, "wishes": {"harvest_months": [13], "max_trees": 0}, "limit": 500})) == {
        "/site/hardiness_zone", "/site/width_ft", "/site/drainage", "/site/soil_ph", "/site/chill_hours",
        "/wishes/harvest_months/0", "/wishes/max_trees", "/limit",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("question", "pointer", "offered"),
    [
        ({"consider": ["Honeycrsp"]}, "/consider/0", "Honeycrisp"),
        ({"wishes": {"crops": ["aple"]}}, "/wishes/crops/0", "apple"),
        ({"existing_trees": [{"cultivar": "Libertey"}]}, "/existing_trees/0/cultivar", "Liberty"),
        ({"existing_trees": [{"crop": "apple"}, {"crop": "peech"}]}, "/existing_trees/1/crop", "peach"),
    ],
)
def test_an_unknown_name_is_pointed_at_with_near_names(
    client: FlaskClient, question: dict[str, Any], pointer: str, offered: str
) -> None:
    assert offered in refused(client, question)[pointer]


def test_a_name_that_two_crops_share_is_asked_back(client: FlaskClient) -> None:
    assert "apple.gala" in refused(client, {"consider": ["Gala"]})["/consider/0"]
    assert told(client, {"consider": ["Gala apple"]})["answer"]["considered"][0]["cultivar"] == "apple.gala"


def test_a_cultivar_that_does_not_fit_is_answered_for(client: FlaskClient) -> None:
    question = {"site": {"hardiness_zone": "3a"}, "consider": ["loquat.big_jim"], "limit": 1}
    (considered,) = told(client, question)["answer"]["considered"]
    assert considered["fits"] is False
    assert {"set_aside", "forbid"} & {reason["outcome"] for reason in considered["reasons"]}


def test_spanish_names_and_spanish_cautions(client: FlaskClient) -> None:
    question = {"language": "es", "wishes": {"crops": ["manzana"]}, "limit": 1}
    said = told(client, question)
    assert said["answer"]["suggestions"][0]["crop_name"] == "manzana"


def test_a_series_of_temperatures_stands_in_for_what_nobody_said(client: FlaskClient) -> None:
    months = [{"month": month, "mean_f": 40 + 5 * min(month, 12 - month)} for month in range(1, 13)]
    said = told(client, {"site": {"climate": {"latitude": 40, "monthly": months}}, "limit": 1})
    assert "site.warmest_month_f" not in [gap["fact"] for gap in said["not_judged"]]


def test_a_fault_in_the_series_points_into_the_request(client: FlaskClient) -> None:
    series = {"latitude": 40, "daily": [{"date": "someday", "min_f": 30, "max_f": 50}]}
    (pointer,) = refused(client, {"site": {"climate": series}})
    assert pointer.startswith("/site/climate/daily/0")


def test_as_many_are_named_as_were_asked_for(client: FlaskClient) -> None:
    said = told(client, {"site": {"hardiness_zone": "3a"}, "limit": 3, "set_aside_limit": 2})["answer"]
    assert (len(said["suggestions"]), len(said["set_aside"])) == (3, 2)
    judged = sum(crop["judged"] - crop["fitting"] for crop in said["crops"])
    assert said["set_aside_more"] == judged - 2


def test_the_ranges_that_are_taken_are_those_of_the_vocabulary(rulebook: Rulebook) -> None:
    taken = {}
    for name, field in SiteAsked().fields.items():
        bounds = [check for check in field.validators if isinstance(check, Within)]
        fact = rulebook.vocabulary.facts.get(f"site.{name}")
        if bounds and fact is not None:
            taken[name] = ((bounds[0].min, bounds[0].max), (fact.low, fact.high))
    assert len(taken) >= 7
    assert all(asked == known for asked, known in taken.values()), taken


def test_the_choices_that_are_taken_are_those_of_the_vocabulary(rulebook: Rulebook) -> None:
    for name in ("drainage", "summer"):
        (check,) = SiteAsked().fields[name].validators
        assert tuple(check.choices) == rulebook.vocabulary.facts[f"site.{name}"].values  # type: ignore[attr-defined]
