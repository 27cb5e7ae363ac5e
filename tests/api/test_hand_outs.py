"""A hand-out holds the answers and nothing of who asked, opens by its address alone, and is gone after its time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from icalendar import Calendar

from service import create_app
from service.parts import Parts
from service.reasoning.rulebook import Rulebook
from service.settings import Settings
from service.storage.hand_outs import sweep

SITE = {"hardiness_zone": "7b", "chill_hours": 900, "width_ft": 30, "depth_ft": 20, "max_height_ft": 12}
QUESTIONS: dict[str, dict[str, Any]] = {
    "variety-suggestions": {"site": SITE, "wishes": {"max_trees": 2}, "limit": 3},
    "thinning-plans": {"crop": "peach", "cultivar": "Redhaven", "fruit": 400, "days_after_full_bloom": 40},
    "pruning-plans": {"crop": "apple", "date": "2026-01-20"},
    "season-plans": {"trees": [{"crop": "apple", "cultivar": "Liberty"}], "site": {"region": "mid_atlantic"}},
    "diagnoses": {"crop": "japanese_plum", "signs": {"present": ["lf_curl_tight", "lf_aphids_in_curl"]}},
    "treatment-pointers": {"crop": "apple", "disorder": "apple_scab", "date": "2025-05-12", "products": []},
    "planting-lists": {"text": "2x Honeycrisp on M.9\nLiberty", "site": SITE},
}


def made(client: FlaskClient, questions: dict[str, dict[str, Any]], **more: Any) -> dict[str, Any]:
    asked = [{"question": noun, "asked": question} for noun, question in questions.items()]
    answer = client.post("/v1/hand-outs", json={"questions": asked, **more})
    assert answer.status_code == 201, answer.text
    told: dict[str, Any] = answer.json
    return told


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("noun", list(QUESTIONS))
def test_every_question_can_be_taken_home(client: FlaskClient, noun: str, language: str) -> None:
    told = made(client, {noun: QUESTIONS[noun]}, language=language)
    [topic] = told["sheet"]["topics"]
    assert topic["question"] == noun
    assert topic["blocks"]
    page = client.get(told["page"])
    assert page.status_code == 200
    assert f'<html lang="{language}">' in page.text
    assert client.get(told["pdf"]).data.startswith(b"%PDF-")


def test_the_page_needs_no_script_and_keeps_itself_private(client: FlaskClient) -> None:
    page = client.get(made(client, QUESTIONS)["page"])
    assert "<script" not in page.text
    assert page.headers["Cache-Control"] == "no-store"
    assert page.headers["X-Robots-Tag"] == "noindex"
    assert page.headers["Referrer-Policy"] == "no-referrer"


def test_the_page_says_what_the_answer_says(client: FlaskClient) -> None:
    answer = client.post("/v1/pruning-plans", json=QUESTIONS["pruning-plans"]).json
    sheet = made(client, {"pruning-plans": QUESTIONS["pruning-plans"]})["sheet"]
    assert sheet["topics"][0]["text"] == answer["answer"]["when"]["text"]
    assert sheet["cautions"] == [one["text"] for one in answer["cautions"]]
    assert sheet["rulebook"] == answer["rulebook"]


def test_nothing_that_was_typed_of_a_person_is_kept(client: FlaskClient) -> None:
    text = "2x Honeycrisp for Zyxwvia Qqq\nZyxwvia Qqq, 12 Zyxwv Lane\nLiberty / Zyxwvia"
    told = made(client, {
        "planting-lists": {"text": text},
        "diagnoses": {"crop": "apple", "words": "Zyxwvia says the leaves are sticky"},
    })  # fmt: skip
    for address in (told["page"], told["page"].replace("/h/", "/v1/hand-outs/")):
        assert "yxwv" not in client.get(address).text


def test_what_is_not_told_here_is_not_told_as_text_of_a_client(client: FlaskClient) -> None:
    told = made(client, {"diagnoses": {"crop": "apple", "words": "<script>alert(1)</script>"}})
    assert "alert" not in client.get(told["page"]).text


def test_dates_come_as_a_calendar_whose_events_keep_their_ids(client: FlaskClient) -> None:
    told = made(client, {"season-plans": QUESTIONS["season-plans"]})
    first, second = (Calendar.from_ical(client.get(told["calendar"]).data) for _ in range(2))
    events = [str(event["UID"]) for event in first.walk("VEVENT")]
    assert len(events) > 5
    assert events == [str(event["UID"]) for event in second.walk("VEVENT")]


def test_without_dates_there_is_no_calendar(client: FlaskClient) -> None:
    told = made(client, {"pruning-plans": QUESTIONS["pruning-plans"]})
    assert told["calendar"] is None
    assert client.get(f"{told['page']}/dates.ics").status_code == 404


def test_a_fault_points_into_the_question_that_has_it(client: FlaskClient) -> None:
    questions = [{"question": "pruning-plans", "asked": {"crop": "apple"}},
                 {"question": "thinning-plans", "asked": {"crop": "aple", "fruit": 4}}]  # fmt: skip
    answer = client.post("/v1/hand-outs", json={"questions": questions})
    assert answer.status_code == 422
    assert [one["pointer"] for one in answer.json["errors"]] == ["/questions/1/asked/crop"]


def test_the_same_key_leads_to_the_same_sheet_and_takes_no_other(client: FlaskClient) -> None:
    asked = {"questions": [{"question": "pruning-plans", "asked": {"crop": "apple"}}]}
    key = {"Idempotency-Key": "hand-out-test-1"}
    first, second = (client.post("/v1/hand-outs", json=asked, headers=key).json for _ in range(2))
    assert first["link"] == second["link"]
    other = client.post("/v1/hand-outs", json={**asked, "language": "es"}, headers=key)
    assert other.status_code == 422


def test_after_its_time_nothing_opens(client: FlaskClient, app: Flask) -> None:
    told = made(client, {"pruning-plans": {"crop": "apple"}})
    parts: Parts = app.extensions["fruitwright"]
    days = parts.settings.hand_out_days
    assert sweep(parts.database, datetime.now(UTC) + timedelta(days=days, minutes=1)) >= 1
    for address in (told["page"], told["pdf"], told["code"], told["page"].replace("/h/", "/v1/hand-outs/")):
        assert client.get(address).status_code == 404


def test_the_code_and_the_link_lead_to_the_address_that_customers_reach(rulebook: Rulebook, app: Flask) -> None:
    database = app.extensions["fruitwright"].settings.database_url
    outside = create_app(Settings(public_address="https://trees.example/shop", database_url=database), rulebook)
    told = made(outside.test_client(), {"pruning-plans": {"crop": "apple"}})
    assert told["link"] == f"https://trees.example/shop{told['page']}"
    outside.extensions["fruitwright"].database.close()
