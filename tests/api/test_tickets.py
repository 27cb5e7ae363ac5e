"""A ticket takes what a customer told at the kiosk to the counter, and nothing else."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from flask.testing import FlaskClient

DIAGNOSIS = {"crop": "peach", "complaint": "curled_red_peach", "signs": {"present": ["lf_thick_pucker"]}}


def ticket(*questions: tuple[str, dict[str, Any]], **more: Any) -> dict[str, Any]:
    asked = questions or (("diagnoses", DIAGNOSIS),)
    return {"came_for": "trouble", "questions": [{"question": name, "asked": one} for name, one in asked], **more}


def faults(told: Any) -> list[tuple[str, str]]:
    assert told.status_code == 422, told.text
    return [(one["pointer"], one["detail"]) for one in told.json["errors"]]


def test_a_ticket_is_opened_by_the_number_that_it_got(client: FlaskClient) -> None:
    pointer = ("treatment-pointers", {"crop": "peach", "disorder": "peach_leaf_curl"})
    made = client.post("/v1/tickets", json=ticket(("diagnoses", DIAGNOSIS), pointer, language="es"))
    assert made.status_code == 201
    assert made.headers["Cache-Control"] == "no-store"
    opened = client.get(f"/v1/tickets/{made.json['number']}")
    assert opened.json == made.json
    assert [one["question"] for one in opened.json["questions"]] == ["diagnoses", "treatment-pointers"]
    assert opened.json["questions"][0]["asked"] == DIAGNOSIS
    assert opened.json["language"] == "es"


def test_it_lives_until_the_day_of_the_store_ends(client: FlaskClient) -> None:
    made = client.post("/v1/tickets", json=ticket()).json
    left = datetime.fromisoformat(made["expires_at"]) - datetime.now(UTC)
    assert 0 < left.total_seconds() <= 26 * 3600
    assert datetime.fromisoformat(made["expires_at"]).astimezone().strftime("%H:%M") == "00:00"


def test_a_number_that_nobody_got_opens_nothing(client: FlaskClient) -> None:
    for number in ("7", "999999", "..%2F1", "٤١٧", "%00", "41%007"):
        assert client.get(f"/v1/tickets/{number}").status_code == 404


def test_what_the_kiosk_wanted_of_its_own_answer_does_not_go_to_the_counter(client: FlaskClient) -> None:
    asked = {**DIAGNOSIS, "language": "es", "keep": True}
    made = client.post("/v1/tickets", json=ticket(("diagnoses", asked))).json
    assert made["questions"][0]["asked"] == DIAGNOSIS


def test_a_question_is_held_to_the_form_of_its_own_address(client: FlaskClient) -> None:
    questions = (("diagnoses", {"crop": 5}), ("pruning-plans", {"crop": "apple", "name": "of a person"}))
    found = dict(faults(client.post("/v1/tickets", json=ticket(*questions))))
    assert found == {"/questions/0/asked/crop": "This must be text."}
    found = dict(faults(client.post("/v1/tickets", json=ticket(questions[1]))))
    assert found["/questions/0/asked/name"].startswith("This field is not known")


@pytest.mark.parametrize("question", ["planting-lists", "climate-summaries", "shelf-products"])
def test_only_what_a_kiosk_asks_goes_onto_a_ticket(client: FlaskClient, question: str) -> None:
    ((pointer, _),) = faults(client.post("/v1/tickets", json=ticket((question, {}))))
    assert pointer == "/questions/0/question"


def test_a_ticket_is_small(client: FlaskClient) -> None:
    hours = [{"time": f"2025-01-{1 + at // 24:02}T{at % 24:02}:00", "temp_f": 40.5} for at in range(700)]
    big = {"trees": [{"crop": "apple"}], "site": {"latitude": 40, "climate": {"hourly": hours}}}
    assert dict(faults(client.post("/v1/tickets", json=ticket(("season-plans", big)))))["/questions"].startswith("A")


def test_a_ticket_without_questions_is_refused(client: FlaskClient) -> None:
    assert faults(client.post("/v1/tickets", json={"came_for": "trouble", "questions": []}))[0][0] == "/questions"
    assert {pointer for pointer, _ in faults(client.post("/v1/tickets", json={}))} == {"/came_for", "/questions"}


def test_the_same_request_sent_twice_over_a_bad_line_gets_one_number(client: FlaskClient) -> None:
    key = {"Idempotency-Key": "kiosk-lobby-0001"}
    numbers = {client.post("/v1/tickets", json=ticket(), headers=key).json["number"] for _ in range(3)}
    assert len(numbers) == 1
    assert faults(client.post("/v1/tickets", json=ticket(language="es"), headers=key))[0][0] == "/Idempotency-Key"


def test_the_document_tells_what_comes_back(client: FlaskClient) -> None:
    document = client.get("/openapi.json").json
    made = client.post("/v1/tickets", json=ticket()).json
    assert set(document["components"]["schemas"]["TicketTold"]["properties"]) == set(made)
