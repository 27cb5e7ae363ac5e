"""Planting lists over the API: rows, text and files in, one verdict a line out, and refusals that point."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from flask.testing import FlaskClient

ADDRESS = "/v1/planting-lists"
SITE = {"hardiness_zone": "7a", "chill_hours": 900, "width_ft": 60, "depth_ft": 40}
TEXT = "2 Honeycrisp on M.9\nGalla apple\nZzyxqv\n5 Bartlett pear on Quince A"


def asked(client: FlaskClient, **question: Any) -> dict[str, Any]:
    told = client.post(ADDRESS, json=question)
    assert told.status_code == 200, told.json
    answer: dict[str, Any] = told.json
    return answer


def sent(client: FlaskClient, content: bytes, name: str, **parts: Any) -> Any:
    data = {"file": (io.BytesIO(content), name), **parts}
    return client.post(ADDRESS, data=data, content_type="multipart/form-data")


def verdicts(answer: dict[str, Any]) -> list[str]:
    return [line["verdict"] for line in answer["answer"]["lines"]]


def test_a_pasted_text_gets_a_verdict_for_each_line(client: FlaskClient) -> None:
    answer = asked(client, text=TEXT, site=SITE)
    lines = answer["answer"]["lines"]
    assert [line["read_as"][0]["how"] for line in lines if line["read_as"]][:2] == ["exact", "guess"]
    assert verdicts(answer)[1:] == ["caution", "not_recognised", "does_not_fit"]
    assert lines[0]["written"] == "2 Honeycrisp on M.9"
    assert (lines[0]["quantity"], lines[0]["rootstock"]["id"]) == (2, "m_9")
    assert answer["answer"]["totals"]["trees"] == 9


def test_rows_come_to_the_same_as_the_text(client: FlaskClient) -> None:
    rows = [
        {"variety": "Honeycrisp", "quantity": 2, "rootstock": "M.9"},
        {"variety": "Galla", "crop": "apple"},
        {"variety": "Zzyxqv"},
        {"variety": "Bartlett", "crop": "pear", "quantity": 5, "rootstock": "Quince A"},
    ]
    assert verdicts(asked(client, rows=rows, site=SITE)) == verdicts(asked(client, text=TEXT, site=SITE))


def test_a_file_in_a_form_comes_to_the_same_as_the_text(client: FlaskClient) -> None:
    question = json.dumps({"site": SITE})
    told = sent(client, TEXT.encode(), "list.txt", question=question)
    assert told.status_code == 200, told.json
    assert verdicts(told.json) == verdicts(asked(client, text=TEXT, site=SITE))
    assert {line["file"] for line in told.json["answer"]["lines"]} == {"list.txt"}


def test_a_file_needs_no_question_beside_it(client: FlaskClient) -> None:
    told = sent(client, b"qty;sorte\n2;Honeycrisp\n", "list.csv")
    assert told.status_code == 200, told.json
    assert told.json["answer"]["lines"][0]["trees"] == 2
    assert told.json["answer"]["sketch"] is None


def test_findings_stand_in_full_among_the_conclusions(client: FlaskClient) -> None:
    answer = asked(client, text=TEXT, site=SITE)
    concluded = {(one["about"], one["rule"]) for one in answer["conclusions"]}
    for line in answer["answer"]["lines"]:
        assert line["findings"]
        assert {(f"line.{line['line']}", finding["rule"]) for finding in line["findings"]} <= concluded


def test_what_was_written_and_a_way_out_stand_beside_a_guess(client: FlaskClient) -> None:
    (name,) = asked(client, text=TEXT, site=SITE)["answer"]["lines"][1]["read_as"]
    assert (name["written"], name["name"], name["how"]) == ("Galla", "Gala", "guess")


def test_the_answer_is_in_spanish_when_it_is_asked_so(client: FlaskClient) -> None:
    answer = asked(client, text="2 manzanos Honeycrisp", site=SITE, language="es")
    assert answer["answer"]["lines"][0]["judged"][0]["crop_name"] == "manzana"


def test_the_question_and_its_answer_are_kept_when_asked(client: FlaskClient) -> None:
    answer = asked(client, text=TEXT, site=SITE, keep=True)
    kept = client.get(f"/v1/consultations/{answer['consultation']}").json
    assert kept["answer"]["answer"]["totals"] == answer["answer"]["totals"]


@pytest.mark.parametrize("question", [{}, {"text": "Gala", "rows": [{"variety": "Gala"}]}, {"site": SITE}])
def test_a_list_comes_as_text_or_as_rows(client: FlaskClient, question: dict[str, Any]) -> None:
    told = client.post(ADDRESS, json=question)
    assert told.status_code == 422
    assert [fault["pointer"] for fault in told.json["errors"]] == [""]


def test_more_than_500_lines_are_kept_and_checked_in_their_own_time(client: FlaskClient) -> None:
    assert client.post(ADDRESS, json={"text": "Gala apple\n" * 500}).status_code == 200
    told = client.post(ADDRESS, json={"text": "Gala apple\n" * 501})
    assert told.status_code == 202
    assert (told.json["state"], told.json["lines_expected"]) == ("waiting", 501)
    assert told.headers["Location"] == f"{ADDRESS}/{told.json['id']}"


@pytest.mark.parametrize(
    ("question", "said"),
    [
        ("{", "not JSON"),
        ("3", "object"),
        ('{"site": {"hardiness_zone": "warm"}}', "/site/hardiness_zone"),
        ('{"text": "Gala"}', "/text"),
        ('{"existing_trees": [{"cultivar": "Zzyxqv"}]}', "/existing_trees/0/cultivar"),
    ],
)
def test_a_fault_in_the_question_beside_a_file_points_there(client: FlaskClient, question: str, said: str) -> None:
    told = sent(client, b"Gala apple", "list.txt", question=question)
    assert told.status_code == 422
    assert {fault["pointer"] for fault in told.json["errors"]} == {"/question"}
    assert said in told.json["errors"][0]["detail"]


def test_a_form_without_a_file_or_with_a_strange_part_is_refused(client: FlaskClient) -> None:
    without = client.post(ADDRESS, data={"question": "{}"}, content_type="multipart/form-data")
    assert (without.status_code, without.json["errors"][0]["pointer"]) == (422, "/file")
    strange = sent(client, b"Gala apple", "list.txt", colour="red")
    assert (strange.status_code, strange.json["errors"][0]["pointer"]) == (422, "/colour")


def test_a_file_with_macros_is_refused_where_it_was_sent(client: FlaskClient) -> None:
    told = sent(client, b"PK\x03\x04" + b"\0" * 200, "list.xlsm")
    assert told.status_code == 422
    assert {fault["pointer"] for fault in told.json["errors"]} == {"/file"}


def test_a_tree_that_stands_on_the_plot_is_on_the_sketch(client: FlaskClient) -> None:
    spot = {"x_ft": 10, "y_ft": 8, "spread_ft": 14}
    answer = asked(client, text=TEXT, site=SITE, existing_trees=[{"crop": "apple", "spot": spot}])
    (stands,) = answer["answer"]["sketch"]["standing"]
    assert stands == {"cultivars": [], "crop": "apple", "crop_name": "apple", **spot}


def test_a_tree_that_would_stand_beyond_the_plot_is_refused_at_its_field(client: FlaskClient) -> None:
    tree = {"crop": "apple", "spot": {"x_ft": 70, "y_ft": 8, "spread_ft": 14}}
    told = client.post(ADDRESS, json={"text": TEXT, "site": SITE, "existing_trees": [tree]})
    assert told.status_code == 422
    assert [fault["pointer"] for fault in told.json["errors"]] == ["/existing_trees/0/spot/x_ft"]
