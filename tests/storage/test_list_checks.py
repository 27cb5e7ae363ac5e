"""Checks of planting lists in the database: who may write, what is written once, and what is asked for again."""

from __future__ import annotations

import io
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import func, select, text

from service.domain.list_batch import Asking, Lease, ListEnd, Part, SentList, Work
from service.storage.consultations import KeyUsedOtherwise
from service.storage.database import Database
from service.storage.leases import give_back_lease, take_lease
from service.storage.list_checks import (
    MOST_STUCK,
    TakenByAnother,
    add_part,
    fail,
    finish,
    next_open,
    put_back,
    take,
    tallies,
)
from service.storage.list_progress import EndedAlready, cancel, lists_after, parts_of, progress_of, told_of
from service.storage.planting_lists import (
    PIECE_BYTES,
    check_again,
    copy_content,
    keep_list,
    list_under,
    lists_to_check_again,
    pieces_of,
    remove_list,
)
from service.storage.queue import SCHEMA, enqueue
from service.storage.tables import ListCheckRow, ListPartRow, PlantingListRow

SENT = SentList("file", {"site": {"hardiness_zone": "7b"}}, "list.csv", 4)


def kept(database: Database, key: str | None = None, digest: str = "d") -> str:
    return keep_list(database, SENT, [b"Gala\nLiberty\n"], asking=Asking(key, digest))


def check_of(database: Database, list_id: str) -> str:
    progress = progress_of(database, list_id)
    assert progress is not None
    return progress.check_id


def taken(database: Database, list_id: str, rulebook: str = "a") -> Work:
    work = take(database, check_of(database, list_id), rulebook)
    assert work is not None
    return work


def part(number: int, verdicts: str = "fn") -> Part:
    return Part(number, len(verdicts), verdicts, {"part": number}, b"told")


def rows_of(database: Database, table: type) -> int:
    with database.reading() as session:
        return session.scalar(select(func.count()).select_from(table)) or 0


def jobs(database: Database) -> int | None:
    """The jobs in the queue; None where the database has none."""
    if database.engine.dialect.name != "postgresql":
        return None
    with database.reading() as session:
        return session.scalar(text(f"SELECT count(*) FROM {SCHEMA}.procrastinate_jobs"))


def put_into_the_queue_and_break_off(database: Database) -> None:
    with database.writing() as session:
        enqueue(session, ["a-check"])
        raise ConnectionError


def done(database: Database, list_id: str, verdicts: str, rulebook: str = "a") -> None:
    work = taken(database, list_id, rulebook)
    finish(database, work, ListEnd(b"whole", "passes", part(0, verdicts)))


def test_a_list_stands_with_its_check_in_the_queue(database: Database) -> None:
    list_id = kept(database)
    progress = progress_of(database, list_id)
    assert progress is not None
    assert (progress.state, progress.lines_done, progress.lines_expected, progress.number) == ("waiting", 0, 4, 1)
    assert next_open(database) == progress.check_id
    assert jobs(database) in (None, 1)


def test_what_was_sent_comes_back_as_it_was_however_long(database: Database) -> None:
    content = bytes(range(256)) * (PIECE_BYTES // 100)
    list_id = keep_list(database, SENT, pieces_of(io.BytesIO(content)), asking=Asking())
    into = io.BytesIO()
    copy_content(database, list_id, into)
    assert into.getvalue() == content


def test_when_the_list_is_not_stored_there_is_no_job_either(database: Database) -> None:
    def breaks_off() -> Iterator[bytes]:
        yield b"Gala\n"
        raise ConnectionError

    with pytest.raises(ConnectionError):
        keep_list(database, SENT, breaks_off(), asking=Asking())
    with pytest.raises(ConnectionError):
        put_into_the_queue_and_break_off(database)
    assert rows_of(database, PlantingListRow) == rows_of(database, ListCheckRow) == 0
    assert jobs(database) in (None, 0)


def test_eight_tablets_that_send_a_list_with_one_key_at_once_keep_it_once(database: Database) -> None:
    with ThreadPoolExecutor(8) as pool:
        lists = set(pool.map(lambda _: kept(database, "till-1"), range(8)))
    assert len(lists) == rows_of(database, PlantingListRow) == rows_of(database, ListCheckRow) == 1
    assert jobs(database) in (None, 1)
    assert list_under(database, Asking("till-1", "d")) in lists
    assert list_under(database, Asking("till-2", "d")) is None


def test_a_key_with_another_list_is_refused(database: Database) -> None:
    kept(database, "till-1")
    with pytest.raises(KeyUsedOtherwise):
        list_under(database, Asking("till-1", "e"))
    with pytest.raises(KeyUsedOtherwise):
        kept(database, "till-1", "e")


def test_parts_are_counted_as_they_are_written(database: Database) -> None:
    list_id = kept(database)
    work = taken(database, list_id)
    add_part(database, work, part(0, "ffc"))
    progress = progress_of(database, list_id)
    assert progress is not None
    assert (progress.state, progress.lines_done, progress.verdicts["fits"]) == ("running", 3, 2)
    assert told_of(database, work.check_id) is None
    finish(database, work, ListEnd(b"whole", "passes_with_care", part(1)))
    progress = progress_of(database, list_id)
    assert progress is not None
    assert (progress.state, progress.lines_done, progress.lines_expected) == ("done", 5, 5)
    assert [one.number for one in parts_of(database, work.check_id)] == [0, 1]
    assert list(tallies(database, work.check_id)) == [{"part": 0}, {"part": 1}]
    assert told_of(database, work.check_id) == b"whole"
    assert take(database, work.check_id, "a") is None


def test_only_the_one_who_took_it_last_may_write(database: Database) -> None:
    list_id = kept(database)
    first = taken(database, list_id)
    add_part(database, first, part(0))
    second = taken(database, list_id)
    assert (second.parts_done, second.lines_done) == (1, 2)
    for act in (
        lambda: add_part(database, first, part(1)),
        lambda: finish(database, first, ListEnd(b"", "passes")),
        lambda: fail(database, first, [("/file", "unread")]),
        lambda: put_back(database, first),
    ):
        with pytest.raises(TakenByAnother):
            act()
    add_part(database, second, part(1))
    assert rows_of(database, ListPartRow) == 2


def test_a_part_whose_writing_was_not_confirmed_is_not_written_twice(database: Database) -> None:
    list_id = kept(database)
    work = taken(database, list_id)
    add_part(database, work, part(0))
    add_part(database, work, part(0))
    assert rows_of(database, ListPartRow) == 1
    with pytest.raises(TakenByAnother):
        add_part(database, work, part(2))


def test_two_who_take_it_at_the_same_time_do_not_both_write(database: Database) -> None:
    check_id = check_of(database, kept(database))
    with ThreadPoolExecutor(8) as pool:
        works = [work for work in pool.map(lambda _: take(database, check_id, "a"), range(4)) if work]

        def write(work: Work) -> bool:
            try:
                add_part(database, work, part(0))
            except TakenByAnother:
                return False
            return True

        assert sum(pool.map(write, works)) == 1
    assert sorted(work.attempt for work in works) == [1, 2, 3, 4]


def test_a_check_that_is_called_off_stops_and_stays_so(database: Database) -> None:
    list_id = kept(database)
    work = taken(database, list_id)
    cancelled = cancel(database, list_id)
    assert cancelled is not None
    assert cancelled.state == "cancelled"
    assert cancel(database, list_id) == cancelled
    with pytest.raises(TakenByAnother):
        add_part(database, work, part(0))
    assert next_open(database) is None
    assert take(database, work.check_id, "a") is None
    assert cancel(database, "another") is None


def test_what_has_ended_cannot_be_called_off(database: Database) -> None:
    list_id = kept(database)
    done(database, list_id, "ff")
    with pytest.raises(EndedAlready):
        cancel(database, list_id)


def test_a_list_that_is_removed_takes_everything_along(database: Database) -> None:
    list_id = kept(database)
    work = taken(database, list_id)
    add_part(database, work, part(0))
    assert remove_list(database, list_id)
    assert not remove_list(database, list_id)
    assert progress_of(database, list_id) is None
    assert rows_of(database, ListPartRow) == rows_of(database, ListCheckRow) == 0
    with pytest.raises(TakenByAnother):
        add_part(database, work, part(1))


def test_what_another_rulebook_began_is_begun_anew(database: Database) -> None:
    list_id = kept(database)
    add_part(database, taken(database, list_id, "a"), part(0))
    assert taken(database, list_id, "a").parts_done == 1
    anew = taken(database, list_id, "b")
    assert (anew.parts_done, anew.lines_done) == (0, 0)
    assert rows_of(database, ListPartRow) == 0


def test_a_check_that_never_gets_on_is_given_up(database: Database) -> None:
    list_id = kept(database)
    check_id = check_of(database, list_id)
    for _ in range(MOST_STUCK):
        assert take(database, check_id, "a") is not None
    assert take(database, check_id, "a") is None
    progress = progress_of(database, list_id)
    assert progress is not None
    assert progress.state == "failed"
    assert "several times" in progress.faults[0][1]


def test_a_check_that_gets_on_or_is_put_back_is_not_given_up(database: Database) -> None:
    list_id = kept(database)
    for number in range(2 * MOST_STUCK):
        add_part(database, taken(database, list_id), part(number))
    for _ in range(2 * MOST_STUCK):
        put_back(database, taken(database, list_id))
    assert taken(database, list_id).parts_done == 2 * MOST_STUCK


def test_a_list_that_cannot_be_read_says_why(database: Database) -> None:
    list_id = kept(database)
    fail(database, taken(database, list_id), [("/file", "too long")])
    progress = progress_of(database, list_id)
    assert progress is not None
    assert (progress.state, progress.faults) == ("failed", (("/file", "too long"),))


def test_lists_that_other_rules_judged_are_checked_again_once(database: Database) -> None:
    lists = [kept(database) for _ in range(3)]
    done(database, lists[0], "ffn")
    done(database, lists[1], "ff", "b")
    assert lists_to_check_again(database, "b") == 1
    assert check_again(database, "b") == 1
    assert check_again(database, "b") == lists_to_check_again(database, "b") == 0
    assert jobs(database) in (None, 4)
    done(database, lists[0], "fcnn", "b")
    progress = progress_of(database, lists[0])
    assert progress is not None
    assert (progress.number, progress.changed_lines) == (2, 2)
    assert check_again(database, "b") == 0


def test_only_the_check_before_is_kept_beside_the_newest(database: Database) -> None:
    list_id = kept(database)
    for rulebook in "abcd":
        check_again(database, rulebook)
        done(database, list_id, "ff", rulebook)
    assert rows_of(database, ListCheckRow) == rows_of(database, ListPartRow) == 2


def test_fan_outs_at_the_same_time_ask_once(database: Database) -> None:
    for _ in range(5):
        done(database, kept(database), "ff")
    with ThreadPoolExecutor(4) as pool:
        assert sum(pool.map(lambda _: check_again(database, "b"), range(4))) == 5
    assert rows_of(database, ListCheckRow) == 10


def test_a_fan_out_can_be_taken_in_steps(database: Database) -> None:
    for _ in range(3):
        done(database, kept(database), "ff")
    assert [check_again(database, "b", most=2) for _ in range(3)] == [2, 1, 0]


def test_lists_come_in_the_order_of_their_ids(database: Database) -> None:
    lists = sorted(kept(database) for _ in range(3))
    assert [one.list_id for one in lists_after(database, "", 2)] == lists[:2]
    assert [one.list_id for one in lists_after(database, lists[1], 5)] == lists[2:]


def test_a_lease_is_held_by_one_until_it_runs_out(database: Database) -> None:
    one, two = Lease("lists", "one", 15.0), Lease("lists", "two", 15.0)
    assert take_lease(database, one, now_s=100.0)
    assert not take_lease(database, two, now_s=114.0)
    assert take_lease(database, one, now_s=110.0)
    assert not take_lease(database, two, now_s=124.0)
    assert take_lease(database, two, now_s=126.0)
    assert not take_lease(database, one, now_s=127.0)
    give_back_lease(database, one)
    assert not take_lease(database, one, now_s=127.0)
    give_back_lease(database, two)
    assert take_lease(database, one, now_s=127.0)
