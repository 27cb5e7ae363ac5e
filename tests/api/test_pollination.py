"""GET /v1/pollination: what a client sees."""

from __future__ import annotations

from flask.testing import FlaskClient


def test_a_good_pair_is_answered_with_bloom_distance_and_reasons(client: FlaskClient) -> None:
    told = client.get("/v1/pollination?cultivar=Bing&partner=Lapins&distance_ft=40")
    answer = told.get_json()["answer"]
    assert told.status_code == 200
    assert told.headers["Cache-Control"] == "no-store"
    assert (answer["compatibility"], answer["in_return"]["compatibility"]) == ("compatible", "partly_compatible")
    assert answer["bloom"] == {
        "together": True, "gap_classes": 1, "gap_days": None, "tree": "mid", "partner": "early",
    }  # fmt: skip
    assert answer["distance"] == {"given_ft": 40, "reach_ft": 75, "within_reach": True}
    assert answer["findings"][0]["tree_alleles"] == "S3S4"
    assert "osu-cherry-chart" in answer["findings"][0]["sources"]


def test_conclusions_say_which_tree_they_are_about(client: FlaskClient) -> None:
    told = client.get("/v1/pollination?cultivar=Mutsu&partner=Gala&crop=apple").get_json()
    about = {one["rule"]: one["about"] for one in told["conclusions"]}
    assert about["pair-tree-is-a-triploid"] == "apple.mutsu"
    assert about["pair-with-a-triploid-as-giver"] == "apple.gala"


def test_a_cultivar_beside_itself_is_judged_once(client: FlaskClient) -> None:
    told = client.get("/v1/pollination?cultivar=Bing&partner=Bing").get_json()
    assert told["answer"]["compatibility"] == "incompatible"
    assert [one["rule"] for one in told["conclusions"]] == ["pair-of-one-self-sterile-cultivar"]


def test_an_unknown_name_is_refused_with_near_names(client: FlaskClient) -> None:
    told = client.get("/v1/pollination?cultivar=Bing&partner=Lambart")
    assert told.status_code == 422
    assert told.get_json()["errors"] == [
        {"pointer": "/partner", "detail": "no cultivar “Lambart” is known here; near names: Lambert"}
    ]


def test_both_names_are_required(client: FlaskClient) -> None:
    told = client.get("/v1/pollination?cultivar=Bing")
    assert told.status_code == 422
    assert [error["pointer"] for error in told.get_json()["errors"]] == ["/partner"]
