"""The shelf over the API: records go in, change, come back as they were, and leave without being erased."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient

from service.present.shelf import RATE_LEFT_OUT
from tests.made_up_labels import label

AT = "/v1/shelf-products"


@pytest.fixture
def product(client: FlaskClient) -> dict[str, Any]:
    """A product on the shelf, new for each test."""
    told = client.post(AT, json=label())
    assert told.status_code == 201, told.json
    return dict(told.json or {})


def errors(answer: Any) -> dict[str, str]:
    assert answer.status_code == 422, answer.json
    return {one["pointer"]: one["detail"] for one in answer.json["errors"]}


def test_a_product_is_found_where_the_answer_says(client: FlaskClient) -> None:
    made = client.post(AT, json=label())
    told = client.get(made.headers["Location"]).json
    assert told is not None
    assert told["id"] == (made.json or {})["id"]
    assert told["findings"] == []
    assert told["label"]["sites"][1]["crops"] == ["sweet_cherry", "tart_cherry"]


def test_a_record_may_come_before_it_is_whole_and_says_what_is_missing(client: FlaskClient) -> None:
    told = client.post(AT, json={"product_name": "Invented"})
    assert told.status_code == 201
    found = {one["field"]: one for one in (told.json or {})["findings"]}
    assert {"signal_word", "sites", "label_captured_by.checked_by", "epa_reg_no"} <= set(found)
    assert found["signal_word"]["regulation"] == "40 CFR 156.64"


def test_a_rate_is_taken_and_not_kept(client: FlaskClient) -> None:
    sites = [{"crop_as_printed": "apple", "crops": ["apple"], "rate_text": "2 tbsp per gallon"}]
    told = client.post(AT, json=label(sites=sites)).json or {}
    assert told["notes"] == [{"pointer": "/sites/0/rate_text", "detail": RATE_LEFT_OUT}]
    kept = client.get(f"{AT}/{told['id']}").text
    assert "tbsp" not in kept
    assert "rate_text" not in kept


def test_names_of_crops_and_pests_become_ids(client: FlaskClient) -> None:
    sites = [{"crop_as_printed": "pears", "crops": ["pear", "Asian pear"], "pests": ["Fire blight", "pear_psylla"]}]
    told = client.post(AT, json=label(sites=sites)).json or {}
    assert told["label"]["sites"][0]["crops"] == ["european_pear", "asian_pear"]
    assert told["label"]["sites"][0]["pests"] == ["fire_blight", "pear_psylla"]


def test_a_name_that_is_not_known_is_refused_at_its_place_with_the_nearest(client: FlaskClient) -> None:
    sites = [{"crop_as_printed": "apple", "crops": ["appel"], "pests": ["apple_scap"]}]
    compatibility = {"prohibited_mixes": ["oil of minerals"], "intervals": [{"with": "sulphur"}]}
    actives = [{"iso_name": "captann"}]
    found = errors(client.post(AT, json=label(sites=sites, active_ingredients=actives, compatibility=compatibility)))
    assert set(found) == {"/sites/0/crops/0", "/sites/0/pests/0", "/active_ingredients/0/iso_name",
                          "/compatibility/prohibited_mixes/0", "/compatibility/intervals/0/with"}  # fmt: skip
    assert "did you mean “captan”" in found["/active_ingredients/0/iso_name"]


@pytest.mark.parametrize(
    ("changed", "pointer"),
    [
        ({"signal_word": "DANGEROUS"}, "/signal_word"),
        ({"label_version_date": "2026-02-30"}, "/label_version_date"),
        ({"states_registered": ["Oregon"]}, "/states_registered/0"),
        ({"sites": [{"crop_as_printed": "apple", "phi_days": -1}]}, "/sites/0/phi_days"),
        ({"sites": [{"crop_as_printed": "  "}]}, "/sites/0/crop_as_printed"),
        ({"active_ingredients": [{"iso_name": "captan", "percent": 101}]}, "/active_ingredients/0/percent"),
        ({"id": "../x"}, "/id"),
        ({"restricted_use": "no"}, "/restricted_use"),
        ({"rate": "x"}, "/rate"),
    ],
)
def test_what_has_the_wrong_form_is_refused_at_its_place(
    client: FlaskClient, changed: dict[str, Any], pointer: str
) -> None:
    assert set(errors(client.post(AT, json=label(**changed)))) == {pointer}


def test_a_number_of_the_wrong_form_is_kept_and_told(client: FlaskClient) -> None:
    told = client.post(AT, json=label(epa_reg_no="12-34-KEG")).json or {}
    assert [(one["kind"], one["field"]) for one in told["findings"]] == [("malformed", "epa_reg_no")]


def test_a_change_keeps_the_old_version(client: FlaskClient, product: dict[str, Any]) -> None:
    changed = client.put(f"{AT}/{product['id']}", json=label(signal_word="WARNING", toxicity_category="II")).json or {}
    assert (changed["version"], changed["label"]["signal_word"]) == (2, "WARNING")
    versions = client.get(f"/v1/label-versions/{product['id']}").json or {}
    assert [one["version"] for one in versions["items"]] == [2, 1]
    old = client.get(f"/v1/label-versions/{product['id']}/1").json or {}
    assert old["label"] == product["label"]
    assert (old["version"], old["versions"]) == (1, 2)


def test_the_same_record_again_makes_no_new_version(client: FlaskClient, product: dict[str, Any]) -> None:
    same = client.put(f"{AT}/{product['id']}", json=product["label"]).json or {}
    assert same["version"] == 1


def test_a_change_on_what_another_changed_is_refused(client: FlaskClient, product: dict[str, Any]) -> None:
    address = f"{AT}/{product['id']}?based_on=1"
    assert client.put(address, json=label(net_contents="8 oz")).status_code == 200
    refused = client.put(address, json=label(net_contents="4 oz"))
    assert refused.status_code == 409
    assert "read it again" in (refused.json or {})["detail"]


def test_another_id_in_the_body_is_refused(client: FlaskClient, product: dict[str, Any]) -> None:
    assert set(errors(client.put(f"{AT}/{product['id']}", json=label(id="other")))) == {"/id"}


def test_an_id_on_the_shelf_is_not_taken_twice(client: FlaskClient, product: dict[str, Any]) -> None:
    refused = client.post(AT, json=label(id=product["id"]))
    assert refused.status_code == 409
    assert product["id"] in (refused.json or {})["detail"]


def test_what_is_taken_off_is_withdrawn_and_can_come_back(client: FlaskClient, product: dict[str, Any]) -> None:
    address, versions = f"{AT}/{product['id']}", f"/v1/label-versions/{product['id']}"
    assert client.delete(address).status_code == 204
    for gone in (client.get(address), client.put(address, json=label()), client.delete(address)):
        assert gone.status_code == 404
    kept = client.get(versions).json or {}
    assert kept["withdrawn_at"] is not None
    assert product["id"] in listed(client, "?withdrawn=true&limit=200")
    assert product["id"] not in listed(client, "?limit=200")
    back = client.post(AT, json=label(id=product["id"], net_contents="8 oz"))
    assert (back.status_code, (back.json or {})["version"]) == (201, 2)


def listed(client: FlaskClient, query: str) -> list[str]:
    return [one["id"] for one in (client.get(AT + query).json or {})["items"]]


def test_a_key_enters_the_same_record_once(client: FlaskClient) -> None:
    key = {"Idempotency-Key": "till-3-shelf-1"}
    first, again = (client.post(AT, json=label(), headers=key) for _ in range(2))
    assert (first.json or {})["id"] == (again.json or {})["id"]
    other = client.post(AT, json=label(net_contents="1 oz"), headers=key)
    assert set(errors(other)) == {"/Idempotency-Key"}


def test_the_shelf_is_listed_by_active_and_in_pages(client: FlaskClient) -> None:
    for number in range(3):
        client.post(AT, json=label(id=f"zz-page-{number}", active_ingredients=[{"iso_name": "kaolin"}]))
    first = client.get(f"{AT}?active=Kaolin&limit=2").json or {}
    rest = client.get(f"{AT}?active=kaolin&limit=2&cursor={first['next_cursor']}").json or {}
    ids = [one["id"] for one in (*first["items"], *rest["items"])]
    assert [one for one in ids if one.startswith("zz-page")] == ["zz-page-0", "zz-page-1", "zz-page-2"]


@pytest.mark.parametrize("address", ["/nowhere", "/%00", "/a%2Fb", "/" + "x" * 65])
def test_what_is_not_on_the_shelf_is_not_found(client: FlaskClient, address: str) -> None:
    assert client.get(AT + address).status_code == 404
    assert client.get(f"/v1/label-versions{address}").status_code == 404


@pytest.mark.parametrize("version", ["0", "2", "x", "99999999999999999999"])
def test_a_version_that_is_not_there_is_not_found(client: FlaskClient, product: dict[str, Any], version: str) -> None:
    assert client.get(f"/v1/label-versions/{product['id']}/{version}").status_code == 404
