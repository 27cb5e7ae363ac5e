"""What a page fetches comes packed where the browser takes it, and the same to all others."""

from __future__ import annotations

import gzip

import pytest
from flask.testing import FlaskClient

FETCHED = ["/counter", "/words/es.json", "/fields.json", "/v1/names", "/static/counter/main.mjs", "/static/page.css"]
PACKED = {"Accept-Encoding": "br;q=0, gzip"}


@pytest.mark.parametrize("address", FETCHED)
def test_it_is_the_same_packed_and_smaller(client: FlaskClient, address: str) -> None:
    with client.get(address) as plain, client.get(address, headers=PACKED) as packed:
        assert packed.headers["Content-Encoding"] == "gzip"
        assert "Content-Encoding" not in plain.headers
        assert "Accept-Encoding" in plain.headers["Vary"]
        assert gzip.decompress(packed.data) == plain.data
        assert int(packed.headers["Content-Length"]) == len(packed.data) < len(plain.data)


def test_what_is_there_already_is_not_sent_again(client: FlaskClient) -> None:
    first = client.get("/v1/names", headers=PACKED)
    again = client.get("/v1/names", headers={**PACKED, "If-None-Match": first.headers["ETag"]})
    assert again.status_code == 304
    assert again.data == b""


def test_the_answer_to_a_question_is_packed_as_well(client: FlaskClient) -> None:
    plain = client.post("/v1/pruning-plans", json={"crop": "apple"})
    packed = client.post("/v1/pruning-plans", json={"crop": "apple"}, headers=PACKED)
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) * 4 < len(plain.data)


def test_small_things_and_pictures_go_out_as_they_are(client: FlaskClient) -> None:
    assert "Content-Encoding" not in client.get("/livez", headers=PACKED).headers
    with client.get("/static/icon.png", headers=PACKED) as picture:
        assert "Content-Encoding" not in picture.headers


def test_a_browser_that_refuses_it_gets_it_plain(client: FlaskClient) -> None:
    with client.get("/static/page.css", headers={"Accept-Encoding": "gzip;q=0"}) as plain:
        assert "Content-Encoding" not in plain.headers
