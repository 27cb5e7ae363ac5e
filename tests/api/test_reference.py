"""What the service knows, shown with who says so."""

from __future__ import annotations

from dataclasses import fields

import marshmallow as ma
import pytest
from flask.testing import FlaskClient

from service.api.complaints import KnownComplaintTold
from service.api.crops import CropTold
from service.api.cultivars import CultivarTold
from service.api.disorder_told import DisorderTold
from service.api.rootstocks import RootstockTold
from service.api.sources import SourceTold
from service.domain.complaint import Complaint
from service.domain.crop import Crop
from service.domain.cultivar import Cultivar
from service.domain.disorder import Disorder
from service.domain.rootstock import Rootstock
from service.domain.source import Source

LISTS = ("complaints", "crops", "cultivars", "disorders", "rootstocks", "rules", "signs", "sources")


@pytest.mark.parametrize(
    ("thing", "schema"),
    [
        (Crop, CropTold),
        (Cultivar, CultivarTold),
        (Rootstock, RootstockTold),
        (Source, SourceTold),
        (Complaint, KnownComplaintTold),
        (Disorder, DisorderTold),
    ],
)
def test_the_document_knows_every_field_that_the_knowledge_has(thing: type, schema: type[ma.Schema]) -> None:
    assert {field.name for field in fields(thing)} == set(schema().fields)


@pytest.mark.parametrize("name", LISTS)
def test_each_list_leads_to_its_entries(client: FlaskClient, name: str) -> None:
    listed = client.get(f"/v1/{name}", query_string={"limit": 3}).json["items"]
    assert len(listed) == 3
    for entry in listed:
        told = client.get(f"/v1/{name}/{entry['id']}").json
        assert told["id"] == entry["id"]


@pytest.mark.parametrize("name", LISTS)
def test_an_entry_that_is_not_there_is_a_problem(client: FlaskClient, name: str) -> None:
    answer = client.get(f"/v1/{name}/no-such-thing")
    assert answer.status_code == 404
    assert answer.content_type == "application/problem+json"


@pytest.mark.parametrize("address", [f"/v1/{name}?limit=2" for name in LISTS])
def test_what_a_client_has_already_is_not_sent_again(client: FlaskClient, address: str) -> None:
    first = client.get(address)
    again = client.get(address, headers={"If-None-Match": first.headers["ETag"]})
    assert first.headers["Cache-Control"] == "public, max-age=60"
    assert again.status_code == 304
    assert not again.data


def test_the_tag_follows_the_rulebook(client: FlaskClient) -> None:
    digest = client.application.extensions["fruitwright"].rulebook.digest
    tag, _ = client.get("/v1/crops").get_etag()
    assert tag
    assert digest.startswith(tag)


def test_every_source_that_a_cultivar_names_can_be_looked_up(client: FlaskClient) -> None:
    told = client.get("/v1/cultivars", query_string={"crop": "apple", "limit": 20}).json["items"]
    named = {source for item in told for source in sources_in(item)}
    assert named
    for source in named:
        assert client.get(f"/v1/sources/{source}").status_code == 200


def sources_in(value: object) -> set[str]:
    if isinstance(value, dict):
        here = set(value["sources"]) if isinstance(value.get("sources"), list) else set()
        return here.union(*(sources_in(inner) for inner in value.values()))
    if isinstance(value, list):
        return set().union(*(sources_in(inner) for inner in value))
    return set()


def test_cultivars_are_found_by_a_part_of_the_name_whatever_the_case(client: FlaskClient) -> None:
    told = client.get("/v1/cultivars", query_string={"name": "GOLDEN del"}).json["items"]
    assert [item["id"] for item in told] == ["apple.golden_delicious"]


def test_a_crop_may_be_called_by_its_spanish_name(client: FlaskClient) -> None:
    told = client.get("/v1/cultivars", query_string={"crop": "manzana", "limit": 1}).json["items"]
    assert told[0]["crop"] == "apple"


def test_a_crop_that_is_misspelt_is_told_the_nearest(client: FlaskClient) -> None:
    answer = client.get("/v1/rootstocks", query_string={"crop": "aple"})
    assert answer.status_code == 422
    assert answer.json["errors"] == [{"pointer": "/crop", "detail": "No crop is called 'aple'; near it are: apple."}]


def test_rules_can_be_chosen_by_what_they_do(client: FlaskClient) -> None:
    told = client.get("/v1/rules", query_string={"outcome": "set_aside", "ruleset": "suggestion.cultivar"}).json
    assert told["items"]
    assert {item["outcome"] for item in told["items"]} == {"set_aside"}


def test_a_rule_is_shown_with_its_tests_in_words_and_its_examples(client: FlaskClient) -> None:
    first = client.get("/v1/rules", query_string={"ruleset": "suggestion.cultivar", "limit": 1}).json["items"][0]
    rule = client.get(f"/v1/rules/{first['id']}").json
    assert all(test["in_words"] for test in rule["when"])
    assert {example["expect"] for example in rule["examples"]} == {"fires", "silent"}
    assert rule["sources"] or rule["basis"]
    assert rule["file"].startswith("rules/suggestion/cultivar/")


def test_a_query_that_the_list_does_not_know_is_refused(client: FlaskClient) -> None:
    answer = client.get("/v1/cultivars", query_string={"corp": "apple"})
    assert answer.status_code == 422
    assert answer.json["errors"][0]["detail"] == "This field is not known; did you mean 'crop'?"


def test_a_sign_is_found_by_what_customers_call_it_and_has_a_drawing(client: FlaskClient) -> None:
    told = client.get("/v1/signs", query_string={"name": "Pulgón harinoso"}).json["items"]
    assert [item["id"] for item in told] == ["lf_mealy_aphids"]
    assert client.get(told[0]["drawing"]).content_type.startswith("image/svg+xml")


def test_signs_can_be_chosen_by_the_part_of_the_tree(client: FlaskClient) -> None:
    told = client.get("/v1/signs", query_string={"part": "blossom", "limit": 200}).json["items"]
    assert {item["part"] for item in told} == {"blossom"}


def test_the_disorders_of_a_crop_are_those_that_are_met_on_it(client: FlaskClient) -> None:
    query = {"crop": "japanese_plum", "kind": "fungus", "limit": 200}
    told = {item["id"] for item in client.get("/v1/disorders", query_string=query).json["items"]}
    assert "plum_pockets" in told
    assert "peach_leaf_curl" not in told


def test_a_disorder_is_told_with_its_sample_and_measures_written_out(client: FlaskClient) -> None:
    told = client.get("/v1/disorders/peach_leaf_curl").json
    assert told["sample"]["how"]["text"]
    assert {measure["kind"] for measure in told["measures"]} == {"cultural"}
    assert told["look_alikes"][0]["telling"]
    for source in told["sources"]:
        assert client.get(f"/v1/sources/{source}").status_code == 200


def test_a_complaint_of_one_crop_is_not_offered_for_another(client: FlaskClient) -> None:
    told = client.get("/v1/complaints", query_string={"crop": "fig", "limit": 200}).json["items"]
    ids = {item["id"] for item in told}
    assert "fig_no_ripe" in ids
    assert "curled_plum" not in ids
