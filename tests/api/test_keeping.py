"""Asking stores nothing unless the question says so; then the same request sent twice is kept once."""

from __future__ import annotations

from flask.testing import FlaskClient
from sqlalchemy import func, select

from service.storage.tables import ConsultationRow

ASK = "/v1/variety-suggestions"
QUESTION = {"site": {"hardiness_zone": "6b", "chill_hours": 1100}, "limit": 1}


def kept(client: FlaskClient) -> int:
    database = client.application.extensions["fruitwright"].database
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(ConsultationRow)) or 0


def test_asking_stores_nothing(client: FlaskClient) -> None:
    before = kept(client)
    answer = client.post(ASK, json=QUESTION)
    assert answer.status_code == 200
    assert "consultation" not in answer.json
    assert answer.headers["Cache-Control"] == "no-store"
    assert kept(client) == before


def test_a_kept_answer_is_found_again_with_its_question_and_digest(client: FlaskClient) -> None:
    asked = {**QUESTION, "keep": True}
    answer = client.post(ASK, json=asked).json
    found = client.get(f"/v1/consultations/{answer['consultation']}")
    assert found.json["question"] == "variety-suggestions"
    assert found.json["asked"] == asked
    assert found.json["answer"]["answer"] == answer["answer"]
    assert found.json["rulebook"] == answer["rulebook"]
    assert found.headers["Cache-Control"] == "no-store"


def test_a_kept_question_asked_again_says_the_same(client: FlaskClient) -> None:
    answer = client.post(ASK, json={**QUESTION, "keep": True}).json
    found = client.get(f"/v1/consultations/{answer['consultation']}").json
    again = client.post(ASK, json={**found["asked"], "keep": False}).json
    assert again == found["answer"]


def test_the_same_request_with_the_same_key_is_kept_once(client: FlaskClient) -> None:
    key = {"Idempotency-Key": "till-3.0001"}
    first = client.post(ASK, json={**QUESTION, "keep": True}, headers=key)
    count = kept(client)
    again = client.post(ASK, json={**QUESTION, "keep": True}, headers=key)
    assert again.data == first.data
    assert kept(client) == count


def test_a_key_that_comes_back_with_another_request_is_refused(client: FlaskClient) -> None:
    key = {"Idempotency-Key": "till-3.0002"}
    client.post(ASK, json={**QUESTION, "keep": True}, headers=key)
    answer = client.post(ASK, json={**QUESTION, "limit": 2, "keep": True}, headers=key)
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == "/Idempotency-Key"


def test_a_key_with_spaces_is_refused(client: FlaskClient) -> None:
    answer = client.post(ASK, json={**QUESTION, "keep": True}, headers={"Idempotency-Key": "till 3"})
    assert answer.status_code == 422


def test_a_key_on_a_question_that_is_not_kept_is_of_no_account(client: FlaskClient) -> None:
    key = {"Idempotency-Key": "till-3.0003"}
    assert client.post(ASK, json=QUESTION, headers=key).status_code == 200
    assert client.post(ASK, json={**QUESTION, "limit": 2}, headers=key).status_code == 200


def test_a_consultation_that_nobody_kept_is_a_problem(client: FlaskClient) -> None:
    answer = client.get("/v1/consultations/none")
    assert answer.status_code == 404
    assert answer.json["detail"] == "No consultation is kept under this id."
