"""A long list over the API: it is kept, told how far it is, checked by the worker, read, downloaded and removed."""

from __future__ import annotations

import io
import json
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.batches.embedded import EmbeddedWorker

ADDRESS = "/v1/planting-lists"
SITE = {"hardiness_zone": "7b", "chill_hours": 900}
LATER = {"Prefer": "respond-async"}
SHORT = {"text": "2 Honeycrisp on M.9\nLiberty\nElberta peach", "site": SITE}


def long_text(lines: int) -> str:
    return "".join(f"{1 + number % 9} Gala apple\n" for number in range(lines))


def sent(client: FlaskClient, body: dict[str, Any], **headers: str) -> dict[str, Any]:
    told = client.post(ADDRESS, json=body, headers=headers or LATER)
    assert told.status_code == 202, told.json
    answer: dict[str, Any] = told.json
    return answer


def work(app: Flask) -> None:
    EmbeddedWorker(app).run(until_done=True)


def test_a_short_list_comes_to_the_same_at_once_and_later(app: Flask, client: FlaskClient) -> None:
    at_once = client.post(ADDRESS, json=SHORT).json
    kept = sent(client, SHORT)
    assert (kept["state"], kept["verdict"], kept["lines_by_verdict"]["fits"]) == ("waiting", None, 0)
    work(app)
    told = client.get(f"{ADDRESS}/{kept['id']}").json
    assert (told["state"], told["verdict"], told["lines_done"]) == ("done", at_once["answer"]["verdict"], 3)
    assert client.get(f"{ADDRESS}/{kept['id']}/result").json == at_once


def test_rows_and_files_are_checked_later_as_well(app: Flask, client: FlaskClient) -> None:
    rows = sent(client, {"rows": [{"variety": "Honeycrisp", "quantity": 2}], "site": SITE})
    form = {"file": (io.BytesIO(b"qty,variety\n2,Honeycrisp\n"), "list.csv"), "question": json.dumps({"site": SITE})}
    file = client.post(ADDRESS, data=form, headers=LATER).json
    assert (file["name"], file["lines_expected"]) == ("list.csv", 2)
    work(app)
    verdicts = {client.get(f"{ADDRESS}/{one['id']}/lines").json["items"][0]["verdict"] for one in (rows, file)}
    assert len(verdicts) == 1


def test_a_long_list_is_told_line_by_line_and_as_a_whole(app: Flask, client: FlaskClient) -> None:
    kept = sent(client, {"text": long_text(1_203), "site": SITE})
    assert client.get(f"{ADDRESS}/{kept['id']}/result").status_code == 409
    work(app)
    address, cursor, lines = f"{ADDRESS}/{kept['id']}", "", list[int]()
    while cursor is not None:
        page = client.get(f"{address}/lines?limit=200" + (f"&cursor={cursor}" if cursor else "")).json
        lines += [line["line"] for line in page["items"]]
        cursor = page["next_cursor"]
    assert lines == list(range(1, 1_204))
    answer = client.get(f"{address}/result").json["answer"]
    assert [line["line"] for line in answer["lines"]] == lines
    assert answer["totals"]["lines"] == 1_203
    assert answer["looked_at_whole"] is False
    assert answer["lines"][1]["repeats_line"] == 1


@pytest.mark.parametrize(
    ("format", "begins"), [("xlsx", b"PK"), ("pdf", b"%PDF"), ("text", b""), ("eml", b""), ("svg", b"<svg")]
)
def test_a_result_is_downloaded_in_each_format(app: Flask, client: FlaskClient, format: str, begins: bytes) -> None:
    kept = sent(client, SHORT)
    work(app)
    told = client.get(f"{ADDRESS}/{kept['id']}/result?format={format}")
    assert told.status_code == 200
    assert told.data.startswith(begins)
    assert b"Honeycrisp" in told.data or format in ("xlsx", "pdf", "svg", "eml")


def test_one_key_keeps_a_list_once_however_the_client_wraps_it(client: FlaskClient) -> None:
    def send(content: bytes, key: str) -> Any:
        form = {"file": (io.BytesIO(content), "list.csv"), "question": json.dumps({"site": SITE})}
        return client.post(ADDRESS, data=form, headers={**LATER, "Idempotency-Key": key})

    first, again = send(b"2 Gala apple\n", "till-9"), send(b"2 Gala apple\n", "till-9")
    assert first.json["id"] == again.json["id"]
    assert send(b"2 Gala apple\n", "till-10").json["id"] != first.json["id"]
    other = send(b"3 Gala apple\n", "till-9")
    assert other.status_code == 422
    assert other.json["errors"][0]["pointer"] == "/Idempotency-Key"


def test_a_check_is_called_off_once(app: Flask, client: FlaskClient) -> None:
    kept = sent(client, SHORT)
    address = f"{ADDRESS}/{kept['id']}"
    assert client.post(f"{address}/cancellations").json["state"] == "cancelled"
    assert client.post(f"{address}/cancellations").status_code == 200
    work(app)
    assert client.get(address).json["state"] == "cancelled"
    ended = sent(client, SHORT)
    work(app)
    assert client.post(f"{ADDRESS}/{ended['id']}/cancellations").status_code == 409


def test_a_list_that_is_removed_is_gone(client: FlaskClient) -> None:
    address = f"{ADDRESS}/{sent(client, SHORT)['id']}"
    assert client.delete(address).status_code == 204
    for path in ("", "/lines", "/events", "/result"):
        assert client.get(address + path).status_code == 404
    assert client.delete(address).status_code == client.post(f"{address}/cancellations").status_code == 404


def test_events_tell_how_it_ended_and_no_more_to_who_has_seen_that(app: Flask, client: FlaskClient) -> None:
    kept = sent(client, SHORT)
    work(app)
    told = client.get(f"{ADDRESS}/{kept['id']}/events")
    assert told.mimetype == "text/event-stream"
    fields = dict(line.split(": ", 1) for line in told.text.split("\n\n")[1].splitlines())
    assert (fields["id"], fields["event"]) == ("1.done.3", "ended")
    assert json.loads(fields["data"]) == client.get(f"{ADDRESS}/{kept['id']}").json
    seen = client.get(f"{ADDRESS}/{kept['id']}/events", headers={"Last-Event-ID": fields["id"]})
    assert (seen.status_code, seen.data) == (204, b"")


def test_kept_lists_are_paged(client: FlaskClient) -> None:
    kept = {sent(client, SHORT)["id"] for _ in range(3)}
    cursor, found = "", set[str]()
    while cursor is not None:
        page = client.get(f"{ADDRESS}?limit=2" + (f"&cursor={cursor}" if cursor else "")).json
        found |= {one["id"] for one in page["items"]}
        cursor = page["next_cursor"]
    assert kept <= found


def test_what_cannot_be_read_is_refused_before_it_is_kept(client: FlaskClient) -> None:
    form = {"file": (io.BytesIO(b"%PDF-1.7 trees"), "list.pdf")}
    assert client.post(ADDRESS, data=form, headers=LATER).status_code == 422
    assert client.post(ADDRESS, json={**SHORT, "site": {"width_ft": -1}}, headers=LATER).status_code == 422


def test_a_cursor_of_another_list_of_things_is_refused(app: Flask, client: FlaskClient) -> None:
    kept = sent(client, SHORT)
    assert client.get(f"{ADDRESS}/{kept['id']}/lines?cursor=YWZ0ZXI6YXBwbGU").status_code == 422
