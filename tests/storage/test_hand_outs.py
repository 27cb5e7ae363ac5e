"""Hand-outs open for whoever has the secret until they expire, and then nothing of them is left, on both databases."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, select

from service.domain.hand_out import HandOut
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.hand_outs import hand_out_under, keep_hand_out, new_hand_out, open_hand_out, sweep
from service.storage.migration import downgrade, revision_of, upgrade
from service.storage.tables import HandOutRow

NOON = datetime(2026, 3, 20, 12, tzinfo=UTC)
SHEET = {"language": "es", "topics": [{"title": "Poda: peral · ñ 🍐"}]}


def made(days: int = 30, now: datetime = NOON) -> HandOut:
    return new_hand_out(SHEET, now=now, days=days)


def count(database: Database) -> int:
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(HandOutRow)) or 0


def test_a_secret_opens_what_was_kept_under_it(database: Database) -> None:
    kept = keep_hand_out(database, made(), key=None, digest="d")
    assert open_hand_out(database, kept.secret, now=NOON) == kept
    assert open_hand_out(database, kept.secret[:-1] + "_", now=NOON) is None


def test_no_two_secrets_are_alike_and_each_is_long(database: Database) -> None:
    secrets = {made().secret for _ in range(200)}
    assert len(secrets) == 200
    assert min(map(len, secrets)) == 22


def test_it_opens_until_the_second_before_it_expires_and_is_deleted_then(database: Database) -> None:
    kept = keep_hand_out(database, made(days=1), key=None, digest="d")
    end = NOON + timedelta(days=1)
    assert open_hand_out(database, kept.secret, now=end - timedelta(seconds=1)) == kept
    assert open_hand_out(database, kept.secret, now=end) is None
    assert count(database) == 0


def test_making_one_deletes_those_that_expired(database: Database) -> None:
    keep_hand_out(database, made(days=1), key=None, digest="d")
    later = keep_hand_out(database, made(now=NOON + timedelta(days=2)), key=None, digest="d")
    assert count(database) == 1
    assert open_hand_out(database, later.secret, now=NOON + timedelta(days=2)) == later


def test_a_sweep_tells_how_many_it_deleted(database: Database) -> None:
    for days in (1, 1, 5):
        keep_hand_out(database, made(days=days), key=None, digest="d")
    assert sweep(database, NOON + timedelta(days=1)) == 2
    assert sweep(database, NOON + timedelta(days=1)) == 0
    assert count(database) == 1


def test_a_key_leads_to_the_same_hand_out_and_takes_no_other_request(database: Database) -> None:
    kept = keep_hand_out(database, made(), key="tablet-1", digest="d")
    assert keep_hand_out(database, made(), key="tablet-1", digest="d") == kept
    assert hand_out_under(database, "tablet-1", "d") == kept
    with pytest.raises(KeyUsedOtherwise):
        keep_hand_out(database, made(), key="tablet-1", digest="e")
    assert count(database) == 1


def test_eight_requests_with_one_key_at_once_make_one(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        kept = list(pool.map(lambda _: keep_hand_out(database, made(), key="k", digest="d"), range(8)))
    assert len({one.secret for one in kept}) == 1
    assert count(database) == 1


def test_the_table_can_be_taken_away_and_made_again(database: Database) -> None:
    keep_hand_out(database, made(), key=None, digest="d")
    downgrade(database, "0004")
    assert revision_of(database) == "0004"
    upgrade(database)
    assert count(database) == 0
