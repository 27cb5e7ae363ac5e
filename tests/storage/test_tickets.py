"""Tickets open by a short number until the day ends, and then nothing of them is left, on both databases."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, insert, select

from service.domain.ticket import Ticket
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.migration import downgrade, revision_of, upgrade
from service.storage.tables import TicketRow
from service.storage.tickets import keep_ticket, new_ticket, open_ticket, ticket_under

NOON = datetime(2026, 3, 20, 12, tzinfo=UTC)
NIGHT = datetime(2026, 3, 21, 7, tzinfo=UTC)
QUESTIONS = [{"question": "diagnoses", "asked": {"crop": "peach", "signs": {"present": ["lf_thick_pucker"]}}}]


def made(now: datetime = NOON, ends: datetime = NIGHT) -> Ticket:
    return new_ticket("trouble", "es", QUESTIONS, life=(now, ends))


def kept(database: Database, ticket: Ticket | None = None) -> Ticket:
    return keep_ticket(database, ticket or made(), key=None, digest="d")


def count(database: Database) -> int:
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(TicketRow)) or 0


def take(database: Database, numbers: range) -> None:
    """Living tickets of these numbers."""
    times = {"made_at": "2026-03-20T11:00:00Z", "expires_at": "2026-03-21T07:00:00Z"}
    rows = [{"number": str(one), "told": "{}", "request_digest": "d", **times} for one in numbers]
    with database.writing() as session:
        session.execute(insert(TicketRow), rows)


def test_a_number_opens_what_was_told(database: Database) -> None:
    ticket = kept(database)
    assert open_ticket(database, ticket.number, now=NOON) == ticket
    assert ticket.questions == tuple(QUESTIONS)
    assert open_ticket(database, "7", now=NOON) is None


def test_a_number_is_short_enough_to_be_called_out(database: Database) -> None:
    numbers = [kept(database).number for _ in range(40)]
    assert len(set(numbers)) == 40
    assert {len(number) for number in numbers} == {3}
    assert all(number[0] != "0" for number in numbers)


def test_numbers_grow_by_a_digit_once_half_of_the_short_ones_live(database: Database) -> None:
    take(database, range(100, 550))
    assert len(kept(database).number) == 4


def test_a_number_that_lives_is_never_given_again(database: Database) -> None:
    taken = range(100, 549)
    take(database, taken)
    assert int(kept(database).number) not in taken


def test_it_opens_until_the_second_before_the_day_ends_and_is_deleted_then(database: Database) -> None:
    ticket = kept(database)
    assert open_ticket(database, ticket.number, now=NIGHT - timedelta(seconds=1)) == ticket
    assert open_ticket(database, ticket.number, now=NIGHT) is None
    assert count(database) == 0


def test_the_first_of_a_new_day_deletes_those_of_the_day_before(database: Database) -> None:
    take(database, range(100, 500))
    day = timedelta(days=1)
    assert len(kept(database, made(NOON + day, NIGHT + day)).number) == 3
    assert count(database) == 1


def test_a_key_leads_to_the_same_ticket_and_takes_no_other_request(database: Database) -> None:
    ticket = keep_ticket(database, made(), key="kiosk-1", digest="d")
    assert keep_ticket(database, made(), key="kiosk-1", digest="d") == ticket
    assert ticket_under(database, "kiosk-1", "d") == ticket
    with pytest.raises(KeyUsedOtherwise):
        keep_ticket(database, made(), key="kiosk-1", digest="e")
    assert count(database) == 1


def test_many_at_once_get_numbers_of_their_own(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        numbers = list(pool.map(lambda _: kept(database).number, range(24)))
    assert len(set(numbers)) == 24 == count(database)


def test_eight_requests_with_one_key_at_once_make_one(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        tickets = list(pool.map(lambda _: keep_ticket(database, made(), key="k", digest="d"), range(8)))
    assert len({ticket.number for ticket in tickets}) == 1 == count(database)


def test_the_table_can_be_taken_away_and_made_again(database: Database) -> None:
    kept(database)
    downgrade(database, "0006")
    assert revision_of(database) == "0006"
    upgrade(database)
    assert count(database) == 0
