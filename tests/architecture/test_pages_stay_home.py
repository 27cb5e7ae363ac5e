"""Pages load nothing from another host, and say so to the browser."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient

from service.settings import CHECKOUT

LOADS = re.compile(r"""(?:src|href|action|url\(|import|fetch\()\s*=?\s*["'(]?\s*(?:https?:)?//""", re.IGNORECASE)
KINDS = (".html", ".js", ".mjs", ".css")
FILES = sorted(path for path in (CHECKOUT / "service" / "pages").rglob("*") if path.suffix in KINDS)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_a_page_names_no_other_host(path: object) -> None:
    assert not LOADS.search(path.read_text(encoding="utf-8"))  # type: ignore[attr-defined]


@pytest.mark.parametrize("text", ['<script src="https://a.example/x.js">', "url(//a.example)", 'fetch("http://a")'])
def test_the_search_would_find_one(text: str) -> None:
    assert LOADS.search(text)


@pytest.mark.parametrize(
    "address",
    ["/", "/counter", "/kiosk", "/shelf", "/shelf/new", "/docs", "/v1/crops", "/static/counter/main.mjs", "/nowhere"],
)
def test_the_browser_is_told_to_load_nothing_from_elsewhere(client: FlaskClient, address: str) -> None:
    with client.get(address) as answer:
        policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy
    assert answer.headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize("address", ["/", "/counter", "/kiosk", "/shelf", "/shelf/new", "/docs"])
def test_what_a_page_links_to_is_there(client: FlaskClient, address: str) -> None:
    page = client.get(address).text
    anchors = set(re.findall(r'id="([^"]+)"', page))
    for target in re.findall(r'(?:href|src)="([^"]+)"', page):
        place, _, anchor = target.partition("#")
        if place:
            with client.get(place) as answer:
                assert answer.status_code == 200, target
        else:
            assert anchor in anchors, target
