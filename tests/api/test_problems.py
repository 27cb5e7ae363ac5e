"""Every error leaves as problem details (RFC 9457) with a sentence, and never with the words of an exception."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service import create_app
from service.reasoning.rulebook import Rulebook
from service.settings import read_settings

ASK = "/v1/variety-suggestions"


def test_an_address_where_nothing_stands(client: FlaskClient) -> None:
    answer = client.get("/v1/nothing")
    assert answer.status_code == 404
    assert answer.content_type == "application/problem+json"
    assert answer.json == {
        "type": "/docs#problem-404",
        "title": "Not Found",
        "status": 404,
        "detail": "Nothing stands at this address.",
    }


def test_a_wrong_method_is_told_which_are_taken(client: FlaskClient) -> None:
    answer = client.delete(ASK)
    assert answer.status_code == 405
    assert set(answer.headers["Allow"].split(", ")) == {"POST", "OPTIONS"}
    assert answer.content_type == "application/problem+json"


def test_a_body_that_is_not_json_is_told_the_place(client: FlaskClient) -> None:
    answer = client.post(ASK, data='{"site": \n {"width_ft": }}', content_type="application/json")
    assert answer.status_code == 400
    assert "line 2, column " in answer.json["detail"]


@pytest.mark.parametrize("body", ['{"limit": NaN}', '{"limit": 1e999}', '{"language": "\\ud800"}', "\ufeff{}", "\x00"])
def test_what_only_looks_like_json_is_refused(client: FlaskClient, body: str) -> None:
    answer = client.post(ASK, data=body.encode(), content_type="application/json")
    assert answer.status_code in (400, 422)


def test_another_media_type_is_refused(client: FlaskClient) -> None:
    answer = client.post(ASK, data="site=7b", content_type="application/x-www-form-urlencoded")
    assert answer.status_code == 415
    assert "application/json" in answer.json["detail"]


def test_a_field_that_cannot_be_used_is_pointed_at(client: FlaskClient) -> None:
    answer = client.post(ASK, json={"site": {"width_ft": "wide", "drainge": "good"}})
    assert answer.status_code == 422
    assert answer.json["errors"] == [
        {"pointer": "/site/width_ft", "detail": "This must be a number."},
        {"pointer": "/site/drainge", "detail": "This field is not known; did you mean 'drainage'?"},
    ]


def test_a_body_that_is_no_object_is_pointed_at_as_a_whole(client: FlaskClient) -> None:
    answer = client.post(ASK, json=[1])
    assert answer.json["errors"] == [{"pointer": "", "detail": "This must be an object."}]


def test_problems_are_never_kept_in_a_cache(client: FlaskClient) -> None:
    assert client.get("/v1/nothing").headers["Cache-Control"] == "no-store"


@pytest.fixture
def broken(rulebook: Rulebook, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Flask]:
    """A service on a folder where no database can be, with a view that breaks."""
    file = tmp_path_factory.mktemp("broken") / "empty.sqlite3"
    settings = {"FRUITWRIGHT_DATABASE_URL": f"sqlite:///{file}", "FRUITWRIGHT_MAX_BODY_BYTES": "1024"}
    app = create_app(read_settings(settings), rulebook)
    app.add_url_rule("/breaks", view_func=_break)
    yield app
    app.extensions["fruitwright"].database.close()


def _break() -> str:
    raise ZeroDivisionError("the customer's telephone number")


def test_a_fault_of_ours_says_so_and_nothing_of_the_exception(broken: Flask) -> None:
    answer = broken.test_client().get("/breaks")
    assert answer.status_code == 500
    assert answer.json["title"] == "Internal Server Error"
    assert "telephone" not in answer.text
    assert answer.headers["X-Request-Id"]


def test_a_body_that_is_too_large_is_refused(broken: Flask) -> None:
    answer = broken.test_client().post(ASK, json={"consider": ["Liberty" * 20] * 10})
    assert answer.status_code == 413
    assert answer.content_type == "application/problem+json"


def test_a_database_that_is_not_migrated_makes_keeping_fail_in_a_sentence(broken: Flask) -> None:
    answer = broken.test_client().get("/v1/consultations/any")
    assert answer.status_code == 503
    assert "database" in answer.json["detail"]
