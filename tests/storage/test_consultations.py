"""Kept consultations come back as they were kept, once for each idempotency key, on both databases."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import func, select

from service.domain.consultation import Consultation
from service.storage.consultations import KeyUsedOtherwise, find, keep, kept_under, new_consultation
from service.storage.database import Database, DatabaseAway
from service.storage.tables import ConsultationRow

ASKED = {"site": {"hardiness_zone": "7b", "note": "\x00 ñ 🍐"}, "keep": True}


def consultation() -> Consultation:
    return new_consultation("variety-suggestions", asked=ASKED, answer={"fit": 82.5, "none": None}, rulebook="f" * 64)


def count(database: Database) -> int:
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(ConsultationRow)) or 0


def test_what_is_kept_comes_back_as_it_was(database: Database) -> None:
    kept = keep(database, consultation(), key=None, digest="d")
    assert find(database, kept.id) == kept
    assert find(database, "another") is None


def test_a_key_leads_to_what_was_kept_under_it(database: Database) -> None:
    kept = keep(database, consultation(), key="till-1", digest="d")
    assert kept_under(database, "till-1", "d") == kept
    assert kept_under(database, "till-2", "d") is None


def test_a_key_with_another_request_is_refused(database: Database) -> None:
    keep(database, consultation(), key="till-1", digest="d")
    with pytest.raises(KeyUsedOtherwise, match="another request"):
        kept_under(database, "till-1", "e")
    with pytest.raises(KeyUsedOtherwise):
        keep(database, consultation(), key="till-1", digest="e")
    assert count(database) == 1


def test_eight_tablets_that_send_the_same_request_at_once_keep_it_once(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        kept = list(pool.map(lambda _: keep(database, consultation(), key="till-1", digest="d"), range(8)))
    assert len({one.id for one in kept}) == 1
    assert count(database) == 1


def test_many_writers_at_once_all_get_through(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        kept = list(pool.map(lambda _: keep(database, consultation(), key=None, digest="d"), range(40)))
    assert len({one.id for one in kept}) == 40
    assert count(database) == 40


def test_a_database_that_is_away_is_told_in_a_sentence(database: Database) -> None:
    nowhere = Database("postgresql+psycopg://fruit@127.0.0.1:1/none")
    assert not nowhere.answers()
    with pytest.raises(DatabaseAway, match="cannot be reached"):
        find(nowhere, "any")


def test_a_database_without_its_tables_is_told_in_a_sentence(empty: Database) -> None:
    with pytest.raises(DatabaseAway, match="database"):
        find(empty, "any")
