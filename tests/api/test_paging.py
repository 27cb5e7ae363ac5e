"""Pages of a list: each entry once, in order, whatever the size of the page."""

from __future__ import annotations

from typing import Any

import pytest
from flask.testing import FlaskClient
from hypothesis import given
from hypothesis import strategies as st

from service.api.paging import after_of, cursor_after, page
from service.domain.errors import NotUnderstood


def walked(entries: list[str], limit: int) -> list[list[str]]:
    pages, cursor = [], None
    while True:
        asked: dict[str, Any] = {"limit": limit, "cursor": cursor}
        told = page(entries, asked, key=str, show=lambda entry: {"id": entry})
        pages.append([item["id"] for item in told["items"]])
        cursor = told["next_cursor"]
        if cursor is None:
            return pages


@given(st.sets(st.text(min_size=1, max_size=20).filter(lambda text: text.isprintable())), st.integers(1, 9))
def test_pages_hold_every_entry_once_and_in_order(ids: set[str], limit: int) -> None:
    pages = walked(list(ids), limit)
    assert [entry for one in pages for entry in one] == sorted(ids)
    assert all(len(one) == limit for one in pages[:-1])
    assert pages[-1] or not ids


@given(st.text(max_size=50).filter(lambda text: text.isprintable()))
def test_a_cursor_leads_back_to_its_key(key: str) -> None:
    assert after_of(cursor_after(key)) == key


@pytest.mark.parametrize("cursor", ["abc", "", "YWJj", "_w", "YWZ0ZXI6_w"])
def test_a_cursor_that_we_never_gave_is_refused(cursor: str) -> None:
    with pytest.raises(NotUnderstood) as caught:
        after_of(cursor)
    assert caught.value.faults[0][0] == "/cursor"


def test_the_cultivars_can_be_walked_from_page_to_page(client: FlaskClient) -> None:
    ids, query = [], {"limit": "100", "crop": "apple"}
    while True:
        told = client.get("/v1/cultivars", query_string=query).json
        ids += [item["id"] for item in told["items"]]
        if told["next_cursor"] is None:
            break
        query["cursor"] = told["next_cursor"]
    catalogue = client.application.extensions["fruitwright"].rulebook.catalogue
    assert ids == sorted(cultivar.id for cultivar in catalogue.cultivars_of("apple"))
