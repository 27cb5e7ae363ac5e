"""What a client of the diagnoses sees."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from flask.testing import FlaskClient

from tests.questions.counter import Case, read_cases

PLUM: dict[str, Any] = {
    "crop": "Japanese plum",
    "stage": "shoot_growth",
    "signs": {"present": ["lf_curl_tight", "lf_aphids_in_curl"], "absent": ["lf_thick_pucker"]},
    "suspected": ["peach_leaf_curl"],
}


def ask(client: FlaskClient, **question: Any) -> dict[str, Any]:
    told = client.post("/v1/diagnoses", json=question)
    assert told.status_code == 200, told.text
    answer: dict[str, Any] = told.json["answer"]
    return answer


def cautions(client: FlaskClient, **question: Any) -> set[str]:
    told = client.post("/v1/diagnoses", json=question)
    return {one["id"] for one in told.json["cautions"]}


def test_a_plum_is_told_of_aphids_and_why_it_is_not_leaf_curl(client: FlaskClient) -> None:
    answer = ask(client, **PLUM)
    assert answer["suspects"][0]["disorder"] == "leaf_curl_plum_aphid"
    assert {one["sign"] for one in answer["suspects"][0]["for"]} == {"lf_curl_tight", "lf_aphids_in_curl"}
    out = answer["ruled_out"][0]
    assert (out["disorder"], out["not_a_host"], out["often_confused"]) == ("peach_leaf_curl", True, True)
    assert out["why"]
    assert out["look_instead"]


@pytest.mark.parametrize("case", read_cases(), ids=lambda case: case.id)
def test_cases_over_the_wire(client: FlaskClient, case: Case) -> None:
    signs = {"present": list(case.present), "absent": list(case.absent)}
    answer = ask(client, crop=case.crop, stage=case.stage, signs=signs)
    assert answer["suspects"][0]["disorder"] == case.expected
    assert not {one["disorder"] for one in answer["suspects"]} & set(case.never)
    shares = [one["likelihood"] for one in answer["suspects"]]
    assert shares == sorted(shares, reverse=True)
    assert sum(shares) + answer["something_else"] <= 1.001


def test_words_for_certainty_grow_with_the_numbers(client: FlaskClient) -> None:
    """The same word never stands for a smaller likelihood than a weaker word does."""
    order = ["not_enough", "possible", "likely", "very_likely"]
    said: dict[str, list[float]] = {word: [] for word in order}
    for case in read_cases():
        signs = {"present": list(case.present), "absent": list(case.absent)}
        for one in ask(client, crop=case.crop, stage=case.stage, signs=signs)["suspects"]:
            said[one["certainty"]].append(one["likelihood"])
    spans = [(min(said[word]), max(said[word])) for word in order if said[word]]
    assert len(spans) > 2
    assert all(low[1] <= high[0] for low, high in pairwise(spans))


def test_where_there_is_not_enough_to_say_nothing_is_treated_and_a_sample_is_asked_for(client: FlaskClient) -> None:
    answer = ask(client, crop="apple", signs={"present": ["lf_pale_all"]})
    assert answer["certainty"] == "not_enough"
    assert answer["treat"] == "no"
    assert answer["sample"] is not None
    assert all(one["measures"] == [] for one in answer["suspects"])
    assert answer["ask_next"]


def test_a_dialogue_ends_at_the_cause_by_answering_what_is_asked(client: FlaskClient) -> None:
    present, absent = ["lf_curl_tight"], []
    shows = {"lf_curl_tight", "lf_aphids_in_curl", "lf_honeydew"}
    for _ in range(8):
        answer = ask(client, crop="japanese_plum", stage="shoot_growth", signs={"present": present, "absent": absent})
        if not answer["ask_next"] or answer["suspects"][0]["likelihood"] > 0.8:
            break
        asked = answer["ask_next"][0]["sign"]
        (present if asked in shows else absent).append(asked)
    assert answer["suspects"][0]["disorder"] == "leaf_curl_plum_aphid"


def test_a_regulated_pest_is_reported_and_not_moved(client: FlaskClient) -> None:
    answer = ask(client, crop="fig", stage="ripening", signs={"present": ["fr_maggots", "fr_exit_1mm"]})
    regulated = [one for one in answer["suspects"] if one["regulated"] != "none" and one["likelihood"] > 0.1]
    assert regulated
    assert answer["refer"] == {"to": "agriculture_office", "move_material": "never"}


def test_a_regulated_pest_that_is_not_ruled_out_keeps_everything_in_the_garden(client: FlaskClient) -> None:
    answer = ask(client, crop="sweet_cherry", stage="harvest", signs={"present": ["fr_maggots"]})
    assert (answer["certainty"], answer["treat"]) == ("not_enough", "no")
    assert answer["refer"] == {"to": "agriculture_office", "move_material": "never"}
    assert answer["sample"]["sample"] == "regulated"
    assert "European cherry fruit fly" in answer["text"]
    assert "sample" not in answer["text"]


def test_a_bare_complaint_raises_no_alarm(client: FlaskClient) -> None:
    answer = ask(client, crop="apple", complaint="wormy_apple")
    assert (answer["certainty"], answer["treat"]) == ("not_enough", "no")
    assert answer["refer"] == {"to": None, "move_material": None}


def test_the_text_begins_with_how_sure_it_is_and_goes_on_with_what_to_do(client: FlaskClient) -> None:
    signs = {"present": ["sh_crook", "sh_ooze"]}
    answer = ask(client, crop="european_pear", stage="shoot_growth", signs=signs)
    assert answer["text"].startswith("Very likely: fire blight. Today, or on the first dry day, cut each strike 12 in")
    assert answer["suspects"][0]["act_by"] == "same_day"
    assert {"bleach", "ladder", "power_lines"} <= cautions(client, crop="apple", stage="shoot_growth", signs=signs)


def test_in_winter_fire_blight_can_wait_for_a_dry_day(client: FlaskClient) -> None:
    signs = {"present": ["br_canker_sunken", "sh_ooze", "sh_crook"]}
    answer = ask(client, crop="european_pear", stage="dormant", signs=signs)
    fire_blight = next(one for one in answer["suspects"] if one["disorder"] == "fire_blight")
    assert fire_blight["act_by"] == "this_season"


def test_a_suspect_of_which_too_little_speaks_gets_no_measures_and_no_haste(client: FlaskClient) -> None:
    answer = ask(client, crop="japanese_plum", stage="shoot_growth", signs={"present": ["lf_curl_tight"]})
    unlikely = [one for one in answer["suspects"] if one["certainty"] == "not_enough"]
    assert unlikely
    assert all(one["measures"] == [] and one["act_by"] is None for one in unlikely)
    assert answer["suspects"][0]["measures"]


@pytest.mark.parametrize(
    ("question", "to"),
    [
        ({"crop": "apple", "stage": "fruit_growth", "signs": {"present": ["br_conk", "wt_slow"]}}, "arborist"),
        ({"crop": "apple", "signs": {"present": ["rt_bark_brown", "rt_wet", "wt_collapse"]}}, "plant_clinic"),
        ({"crop": "peach", "signs": {"present": ["lf_strap_cup", "wt_weedkiller"]}}, "extension_office"),
        ({"crop": "pawpaw", "signs": {"present": ["lf_ragged"]}}, "plant_clinic"),
    ],
)
def test_what_the_counter_cannot_settle_goes_to_who_can(client: FlaskClient, question: dict[str, Any], to: str) -> None:
    assert ask(client, **question)["refer"]["to"] == to


def test_words_that_nobody_has_confirmed_are_confirmed_first(client: FlaskClient) -> None:
    silent = ask(client, crop="apple")
    offered = ask(client, crop="apple", words="white powder on the leaves")
    assert silent["certainty"] == offered["certainty"] == "not_enough"
    assert silent["suspects"] == []
    assert silent["tell_apart"] is None
    assert silent["text"] != offered["text"]
    assert "Agree with the customer first" in offered["text"]


def test_a_complaint_without_a_disease_is_sent_to_the_question_that_answers_it(client: FlaskClient) -> None:
    answer = ask(client, crop="apple", complaint="can_i_prune_now")
    assert answer["text"].startswith("No disease need stand behind that.")
    assert "pruning plan" in answer["text"]


def test_questions_that_tell_little_beside_the_best_are_not_asked(client: FlaskClient) -> None:
    for case in read_cases():
        signs = {"present": list(case.present[:1])}
        gains = [one["gain"] for one in ask(client, crop=case.crop, stage=case.stage, signs=signs)["ask_next"]]
        assert all(gain >= 0.29 * gains[0] for gain in gains)


def test_words_are_offered_for_confirmation_with_the_question_to_ask(client: FlaskClient) -> None:
    answer = ask(client, crop="apple", words="las hojas tienen polvo blanco", language="es")
    offered = answer["reading"]["signs"]
    assert "lf_powder_white" in [one["sign"] for one in offered]
    assert all(one["question"].startswith("¿") or "¿" in one["question"] for one in offered)


def test_spanish_names_and_sentences(client: FlaskClient) -> None:
    english, spanish = ask(client, **PLUM), ask(client, **PLUM, language="es")
    assert english["suspects"][0]["name"] != spanish["suspects"][0]["name"]
    assert english["ask_next"] == [] or english["ask_next"][0]["question"] != spanish["ask_next"][0]["question"]


@pytest.mark.parametrize(
    ("question", "pointer"),
    [
        ({"crop": "apple", "signs": {"present": ["lf_shothol"]}}, "/signs/present/0"),
        ({"crop": "apple", "signs": {"present": ["lf_shothole"], "absent": ["lf_shothole"]}}, "/signs/absent/0"),
        ({"crop": "apple", "complaint": "no_blom"}, "/complaint"),
        ({"crop": "apple", "stage": "blooming"}, "/stage"),
        ({"crop": "apple", "existing_trees": [{"cultivar": "Nobody's Apple"}]}, "/existing_trees/0/cultivar"),
        ({"crop": "apple", "weather": {"wet_periods": [{"hours": 3, "mean_f": 50}]}}, "/weather/wet_periods/0/stage"),
    ],
)
def test_what_cannot_be_used_is_pointed_at(client: FlaskClient, question: dict[str, Any], pointer: str) -> None:
    told = client.post("/v1/diagnoses", json=question)
    assert told.status_code == 422
    assert [fault["pointer"] for fault in told.json["errors"]] == [pointer]


def test_the_drawing_of_a_sign_is_an_image_that_a_page_can_keep(client: FlaskClient) -> None:
    told = client.get("/v1/signs/lf_shothole/drawing?language=es")
    assert told.mimetype == "image/svg+xml"
    assert told.headers["ETag"]
    again = client.get("/v1/signs/lf_shothole/drawing?language=es", headers={"If-None-Match": told.headers["ETag"]})
    assert again.status_code == 304
    assert client.get("/v1/signs/no_such_sign/drawing").status_code == 404


def test_the_same_question_gets_the_same_bytes(client: FlaskClient) -> None:
    assert client.post("/v1/diagnoses", json=PLUM).data == client.post("/v1/diagnoses", json=PLUM).data
