"""POST /v1/climate-summaries as a client sees it: JSON and files in, one answer out, faults at their place."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.published.weather_at_hand import package_file, seattle

ADDRESS = "/v1/climate-summaries"
FILE = package_file("vega_datasets", "_data", "seattle-weather.csv")


def days(first: int = 0, count: int = 1461) -> list[dict[str, Any]]:
    series = seattle()
    extremes = zip(series.min_c[first : first + count], series.max_c[first : first + count], strict=True)
    return [
        {"date": str(series.first_day + place), "min_c": float(low), "max_c": float(high)}
        for place, (low, high) in enumerate(extremes, first)
    ]


def faults(client: FlaskClient, asked: dict[str, Any]) -> dict[str, str]:
    response = client.post(ADDRESS, json=asked)
    assert response.status_code == 422
    assert response.mimetype == "application/problem+json"
    return {fault["pointer"]: fault["detail"] for fault in response.json["errors"]}  # type: ignore[index]


def test_the_contract_is_answered(client: FlaskClient) -> None:
    asked = {"latitude": 47.45, "daily": days(), "winter": {"from": "11-01", "to": "02-28"}}
    response = client.post(ADDRESS, json=asked)
    assert response.status_code == 200
    assert response.headers["Cache-Control"] == "no-store"
    told = response.json
    assert told is not None
    assert set(told) == {"rulebook", "answer", "conclusions", "cautions", "not_judged"}
    answer = told["answer"]
    winter = next(one for one in answer["winters"] if one["winter"] == "2012-13")
    assert winter == {
        "winter": "2012-13", "chill_hours": 1971.0, "chill_hours_32_45": 1763.0, "utah_units": 2200.0,
        "positive_utah_units": 2203.5, "chill_portions": 89.99, "coverage": 1.0, "counted": True,
    }  # fmt: skip
    assert answer["safe_chill"]["winters"] == 3
    assert answer["hardiness_zone"] == "9a"
    assert (answer["last_spring_frost"], answer["first_autumn_frost"]) == ("03-04", "11-12")
    assert answer["gaps"] == {"unit": "days", "missing": 0, "of": 1461, "longest": 0, "longest_from": None}
    assert answer["read"]["kind"] == "daily"
    assert {source["id"] for source in answer["sources"]} >= {"fishman1987a", "richardson1974", "linvill1990"}


def test_a_file_is_answered_as_its_rows_are(client: FlaskClient) -> None:
    rows = client.post(ADDRESS, json={"latitude": 47.45, "daily": days()}).json
    file = client.post(f"{ADDRESS}?latitude=47.45&units=c", data=FILE.read_bytes(), content_type="text/csv").json
    assert rows is not None
    assert file is not None
    assert file["answer"] == rows["answer"]


def test_the_winter_of_a_file_stands_in_the_query(client: FlaskClient) -> None:
    query = "latitude=47.45&units=c&winter_from=10-01&winter_to=03-31"
    told = client.post(f"{ADDRESS}?{query}", data=FILE.read_bytes(), content_type="text/csv").json
    assert told is not None
    assert told["answer"]["winter"] == {"from": "10-01", "to": "03-31"}
    assert told["answer"]["winters"][1]["chill_hours"] > 1971


def test_hours_are_answered(client: FlaskClient) -> None:
    rows = [{"time": f"2013-01-01T{hour:02d}:00", "temp_f": 40.0} for hour in range(24)]
    told = client.post(ADDRESS, json={"latitude": 36.1, "hourly": rows}).json
    assert told is not None
    (winter,) = told["answer"]["winters"]
    assert (winter["chill_hours"], winter["counted"]) == (24.0, False)
    assert told["answer"]["safe_chill"] is None


def test_monthly_means_are_answered_as_an_estimate(client: FlaskClient) -> None:
    told = client.post(ADDRESS, json={"latitude": 33.0, "monthly": [{"month": 1, "mean_f": 50.0}]}).json
    assert told is not None
    estimate = told["answer"]["chill_estimate"]
    assert (estimate["chill_hours"], estimate["from_means_of"], estimate["within_range"]) == (847, "January", True)
    assert "500 hours" in estimate["bias"]
    assert told["answer"]["safe_chill"] is None


@pytest.mark.parametrize(
    ("asked", "pointer"),
    [
        ({"daily": days(0, 3)}, "/latitude"),
        ({"latitude": 95, "daily": days(0, 3)}, "/latitude"),
        ({"latitude": 45}, ""),
        ({"latitude": 45, "daily": days(0, 3), "monthly": [{"month": 1, "mean_f": 50}]}, ""),
        ({"latitude": 45, "daily": {}}, "/daily"),
        ({"latitude": 45, "daily": [{"date": "2013-01-01", "min_c": "1", "max_c": 2}]}, "/daily/0/min_c"),
        ({"latitude": 45, "dayly": []}, "/dayly"),
        ({"latitude": 45, "daily": days(0, 3), "winter": {"from": "11-01"}}, "/winter/to"),
        ({"latitude": 45, "daily": days(0, 3), "winter": {"from": "13-01", "to": "02-28"}}, "/winter/from"),
        ({"latitude": 70, "daily": days(0, 3)}, "/latitude"),
        ({"latitude": -47, "daily": days()}, "/latitude"),
        ({"latitude": 45, "hourly": [{"time": "2013-07-01T00:00", "temp_f": 900}]}, "/hourly"),
    ],
)
def test_a_fault_is_told_at_its_place(client: FlaskClient, asked: dict[str, Any], pointer: str) -> None:
    assert pointer in faults(client, asked)


def test_celsius_sent_as_fahrenheit_is_refused(client: FlaskClient) -> None:
    rows = [{"date": row["date"], "min_f": row["min_c"], "max_f": row["max_c"]} for row in days()]
    assert "July" in faults(client, {"latitude": 47.45, "daily": rows})["/daily"]


@pytest.mark.parametrize(
    ("query", "pointer"),
    [
        ("units=c", "/latitude"),
        ("latitude=47.45", "/units"),
        ("latitude=47.45&units=k", "/units"),
        ("latitude=47.45&units=c&winter_from=11-01", "/winter_to"),
        ("latitude=47.45&units=f", ""),
        ("latitude=47.45&units=c&colour=red", "/colour"),
    ],
)
def test_a_fault_beside_a_file_is_told_by_its_parameter(client: FlaskClient, query: str, pointer: str) -> None:
    response = client.post(f"{ADDRESS}?{query}", data=FILE.read_bytes(), content_type="text/csv")
    assert response.status_code == 422
    assert pointer in {fault["pointer"] for fault in response.json["errors"]}  # type: ignore[index]


def test_query_parameters_beside_a_json_body_are_refused(client: FlaskClient) -> None:
    response = client.post(f"{ADDRESS}?latitude=47.45", json={"latitude": 47.45, "daily": days(0, 3)})
    assert response.status_code == 422
    assert response.json["errors"][0]["pointer"] == "/latitude"  # type: ignore[index]


def test_another_media_type_is_refused(client: FlaskClient) -> None:
    assert client.post(ADDRESS, data=b"x", content_type="text/plain").status_code == 415
