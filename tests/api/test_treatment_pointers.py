"""What a client of the treatment pointers sees, with a shelf of its own and with records of its own."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.domain.label import LabelRecord
from service.domain.plain_label import plain_record
from service.parts import Parts
from service.storage.shelf import change_product, put_all, withdraw
from tests.questions.made_up_labels import DAY, SPINOSAD, record, site

MOTH: dict[str, Any] = {
    "crop": "apple",
    "disorder": "codling_moth",
    "date": "2025-06-10",
    "stage": "fruit_set",
    "state": "PA",
    "harvest_from": "2025-09-20",
}
AMOUNT = re.compile(r"\d\s?(fl\.? ?oz|oz|ounces?|tbsp|tsp|teaspoons?|tablespoons?|ml|pints?|lb per)\b", re.IGNORECASE)


@pytest.fixture
def shelf(app: Flask) -> Iterator[Parts]:
    """The service with two products on the shelf, taken off again afterwards."""
    house: Parts = app.extensions["fruitwright"]
    put_all(house.database, (SPINOSAD, record("captan", id="T05")))
    yield house
    for one in ("T01", "T05"):
        withdraw(house.database, one)


def ask(client: FlaskClient, **question: Any) -> dict[str, Any]:
    told = client.post("/v1/treatment-pointers", json={**MOTH, **question})
    assert told.status_code == 200, told.text
    envelope: dict[str, Any] = told.json
    return envelope


def faults(client: FlaskClient, **question: Any) -> list[str]:
    told = client.post("/v1/treatment-pointers", json={**MOTH, **question})
    assert told.status_code == 422, told.text
    return [one["pointer"] for one in told.json["errors"]]


def inline(one: LabelRecord = SPINOSAD, **changed: Any) -> dict[str, Any]:
    plain = {name: value for name, value in plain_record(one).items() if value is not None}
    return {**plain, **changed}


def test_a_record_of_the_request_is_judged_without_a_shelf(client: FlaskClient) -> None:
    answer = ask(client, products=[inline()])["answer"]
    (product,) = answer["products"]
    assert (product["product"], product["verdict"], product["version"]) == ("T01", "allowed", None)
    assert product["earliest_harvest"] == "2025-06-17"
    assert product["why"]
    assert all(one["authority"] for one in product["why"])


def test_the_whole_shelf_answers_where_no_product_is_named(client: FlaskClient, shelf: Parts) -> None:
    verdicts = {one["product"]: one["verdict"] for one in ask(client)["answer"]["products"]}
    assert (verdicts["T01"], verdicts["T05"]) == ("allowed", "forbidden")  # others of the suite put theirs there too


def test_products_are_found_by_id(client: FlaskClient, shelf: Parts) -> None:
    assert [one["product"] for one in ask(client, products=["T05"])["answer"]["products"]] == ["T05"]
    assert faults(client, products=["T05", "T99"]) == ["/products/1"]
    assert ask(client, products=[])["answer"]["products"] == []


def test_a_kept_answer_names_the_version_that_it_was_made_with(client: FlaskClient, shelf: Parts) -> None:
    kept = ask(client, products=["T01"], keep=True)
    version = kept["answer"]["products"][0]["version"]
    change_product(shelf.database, record("spinosad", id="T01", sites=(site(phi_days=21),)))
    told = client.get(f"/v1/consultations/{kept['consultation']}").json["answer"]["answer"]["products"][0]
    assert (told["version"], told["earliest_harvest"]) == (version, "2025-06-17")
    now = ask(client, products=["T01"])["answer"]["products"][0]
    assert (now["version"], now["earliest_harvest"]) == (version + 1, "2025-07-01")


def test_measures_stand_before_products(client: FlaskClient) -> None:
    answer = ask(client, products=[inline()])["answer"]
    assert answer["measures"]
    assert list(answer).index("measures") < list(answer).index("products")
    assert {one["kind"] for one in answer["measures"]} <= {"cultural", "mechanical", "biological"}
    assert [one["now"] for one in answer["measures"]] == sorted((one["now"] for one in answer["measures"]), key=bool)[
        ::-1
    ]


def test_the_label_is_the_law_on_every_answer(client: FlaskClient) -> None:
    for question in ({"products": []}, {"products": [inline()]}, {"exposure_reported": True, "products": []}):
        said = " ".join(one["text"] for one in ask(client, **question)["answer"]["reminders"])
        assert "label is the law" in said
        assert "local rules may be stricter" in said


def test_numbers_to_call_stand_where_a_product_is_pointed_to(client: FlaskClient) -> None:
    said = str(ask(client, products=[inline()])["answer"]["reminders"])
    assert "1-800-222-1222" in said
    assert "1-800-858-7378" in said
    assert "1-800-858-7378" not in str(ask(client, products=[])["answer"]["reminders"])


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_answer_holds_an_amount(client: FlaskClient, language: str) -> None:
    dosed = inline()
    dosed["sites"][0]["rate_text"] = "2 fl oz per gallon"
    dosed["max_seasonal_ai_text"] = "no more than 12 oz per acre from all products"
    told = client.post("/v1/treatment-pointers", json={**MOTH, "products": [dosed], "language": language}).text
    assert "fl oz" not in told
    assert AMOUNT.search(told) is None


def test_what_is_missing_is_asked_for(client: FlaskClient) -> None:
    envelope = ask(client, products=[inline()], harvest_from=None)
    (product,) = envelope["answer"]["products"]
    assert product["verdict"] == "caution"
    assert product["waits_for"][0]["facts"] == ["product.phi_short_days"]
    assert envelope["not_judged"][0]["needs"] == "the day on which picking begins"


def test_suspects_of_a_diagnosis_stand_for_the_cause(client: FlaskClient) -> None:
    suspects = [{"disorder": "apple_maggot", "likelihood": 0.1}, {"disorder": "codling_moth", "likelihood": 0.85}]
    answer = ask(client, disorder=None, suspects=suspects, products=[inline()])["answer"]
    assert (answer["disorder"], answer["likelihood"]) == ("codling_moth", 0.85)
    assert answer["products"][0]["verdict"] == "allowed"


def test_history_names_products_of_the_request_or_of_the_shelf(client: FlaskClient, shelf: Parts) -> None:
    history = [{"date": "2025-06-05", "product": "T01"}]
    (product,) = ask(client, products=[inline()], history=history)["answer"]["products"]
    assert (product["verdict"], product["opens_again"]) == ("forbidden", "2025-06-15")
    whole = [{"date": "2025-06-05", "product": inline()}]
    assert ask(client, products=["T01"], history=whole)["answer"]["products"][0]["opens_again"] == "2025-06-15"
    actives = [{"date": "2025-06-05", "actives": ["Spinosad"]}]
    uses = ask(client, products=["T01"], history=actives)["answer"]["products"][0]["uses"]
    assert uses == {"this_year": 0, "allowed": 6, "left": 6}


def test_the_log_of_a_tree_is_read(client: FlaskClient, shelf: Parts) -> None:
    used = {"reference": "tree-log-1", "date": "2025-06-05", "product": "T01"}
    assert client.post("/v1/applications", json=used).status_code == 201
    (product,) = ask(client, products=["T01"], reference="tree-log-1")["answer"]["products"]
    assert (product["verdict"], product["uses"]["this_year"]) == ("forbidden", 1)
    told = [{"date": "2025-06-05", "product": "T01"}]
    both = ask(client, products=["T01"], reference="tree-log-1", history=told)["answer"]["products"][0]
    assert both["uses"]["this_year"] == 1


@pytest.mark.parametrize(
    ("question", "pointers"),
    [
        ({"crop": "bananas"}, ["/crop"]),
        ({"disorder": "no such thing"}, ["/disorder"]),
        ({"disorder": None}, ["/disorder"]),
        ({"suspects": [{"disorder": "no such thing", "likelihood": 0.5}], "disorder": None}, ["/suspects/0/disorder"]),
        ({"history": [{"date": "2025-06-11", "actives": ["captan"]}]}, ["/history/0/date"]),
        ({"history": [{"date": "2025-06-01"}]}, ["/history/0/product"]),
        ({"history": [{"date": "2025-06-01", "actives": ["no such active"]}]}, ["/history/0/actives/0"]),
        ({"tank_mix": ["T99"]}, ["/tank_mix/0"]),
        ({"products": [7]}, ["/products/0"]),
        ({"products": [{"product_name": 7}]}, ["/products/0/product_name"]),
        ({"products": [{"sites": [{"crop_as_printed": "x", "pests": ["no such pest"]}]}]},
         ["/products/0/sites/0/pests/0"]),
        ({"own_stock_active": "no such active"}, ["/own_stock_active"]),
        ({"own_stock_active": 3}, ["/own_stock_active"]),
        ({"state": "Pa"}, ["/state"]),
        ({"stage": "blossoming"}, ["/stage"]),
    ],
)  # fmt: skip
def test_what_is_not_understood_is_pointed_at(
    client: FlaskClient, question: dict[str, Any], pointers: list[str]
) -> None:
    assert faults(client, **{"products": [], **question}) == pointers


def test_a_pest_that_only_labels_know_is_reported(client: FlaskClient) -> None:
    answer = ask(client, crop="citrus", disorder="asian_citrus_psyllid", products=[inline()])["answer"]
    assert (answer["crop"], answer["need"]) == ("citrus", "report")
    assert [one["verdict"] for one in answer["products"]] == ["forbidden"]


def test_own_stock_named_by_its_active_is_answered_for(client: FlaskClient) -> None:
    answer = ask(client, own_stock_active="diazinon", products=[])["answer"]
    (own,) = answer["products"]
    assert (own["product"], own["verdict"]) == ("own_stock", "forbidden")
    assert "dispose_of_it" in own["next_steps"]


def test_own_stock_of_a_cancelled_product_is_a_matter_of_care(client: FlaskClient) -> None:
    (product,) = ask(client, own_stock_cancelled=True, products=[inline()])["answer"]["products"]
    assert product["verdict"] == "caution"


def test_today_is_the_day_where_none_is_told(client: FlaskClient) -> None:
    soon = (date.today() + timedelta(days=300)).isoformat()
    answer = ask(client, date=None, harvest_from=soon, products=[inline()])["answer"]
    assert answer["date"] == date.today().isoformat()


def test_a_container_that_differs_is_a_matter_of_care(client: FlaskClient) -> None:
    container = [{"product": "T01", "epa_reg_no": "9999301-2"}]
    (product,) = ask(client, products=[inline()], containers=container)["answer"]["products"]
    assert product["verdict"] == "caution"


def test_the_same_question_has_the_same_answer(client: FlaskClient) -> None:
    question = {**MOTH, "products": [inline()], "date": DAY.isoformat()}
    first, second = (client.post("/v1/treatment-pointers", json=question).data for _ in range(2))
    assert first == second
