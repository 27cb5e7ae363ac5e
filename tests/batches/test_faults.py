"""Nothing is lost and nothing done twice: a worker killed in the middle of a list, the database gone and back again.

The workers are processes of their own, and the PostgreSQL is a real one that is stopped as by a loss of power.
"""

from __future__ import annotations

import signal
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask import Flask

from service.reasoning.rulebook import Rulebook
from service.storage.database import Database
from service.storage.migration import upgrade
from tests.batches.lists_sent import PATIENCE_S, as_json, keep, rows, stored, undisturbed, wait_for, worker
from tests.postgres import Cluster, free_port

LINES = 6_000
BEAT = ("--beat", "0.5")


@pytest.fixture
def fragile() -> Iterator[Cluster]:
    """A PostgreSQL that loses nothing when it is stopped hard."""
    with tempfile.TemporaryDirectory(prefix="fruitwright-pg-") as name:
        cluster = Cluster(Path(name), free_port())
        cluster.make()
        cluster.start(durable=True)
        try:
            yield cluster
        finally:
            cluster.stop()


def is_whole(app: Flask, database: Database, list_id: str, content: bytes) -> None:
    """The check is done, each line stands there once in its order, and all is as if nothing had happened."""
    progress = wait_for(database, list_id, lambda one: one.ended)
    assert progress.state == "done"
    assert progress.lines_done == sum(progress.verdicts.values()) == content.count(b"\n")
    lines = stored(database, progress)
    assert [line["line"] for line in lines] == list(range(1, progress.lines_done + 1))
    assert as_json(lines) == as_json(undisturbed(app, content))


def test_a_worker_that_is_killed_in_the_middle_of_a_list_loses_nothing(service: Flask, database: Database) -> None:
    content = rows(LINES)
    list_id = keep(database, content)
    with worker(database, *BEAT) as first:
        wait_for(database, list_id, lambda one: one.lines_done >= 1_000)
        first.send_signal(signal.SIGKILL)
        first.wait()
    left = wait_for(database, list_id, lambda one: True)
    assert left.state == "running"
    assert 1_000 <= left.lines_done < LINES
    with worker(database, *BEAT):
        is_whole(service, database, list_id, content)


def test_a_worker_that_is_asked_to_stop_leaves_the_rest_to_the_next(service: Flask, database: Database) -> None:
    content = rows(LINES)
    list_id = keep(database, content)
    with worker(database, *BEAT) as first:
        wait_for(database, list_id, lambda one: one.lines_done >= 1_000)
        first.terminate()
        first.wait(PATIENCE_S)
    left = wait_for(database, list_id, lambda one: True)
    assert left.state == "waiting"
    assert left.lines_done < LINES
    with worker(database, *BEAT, "--until-done") as second:
        second.wait(PATIENCE_S)
    is_whole(service, database, list_id, content)


def test_the_database_may_go_and_come_back_in_the_middle_of_a_list(
    fragile: Cluster, app: Flask, rulebook: Rulebook
) -> None:
    database = Database(fragile.empty_database())
    upgrade(database)
    content = rows(LINES)
    list_id = keep(database, content)
    with worker(database, *BEAT) as process:
        wait_for(database, list_id, lambda one: one.lines_done >= 1_000)
        fragile.stop()
        database.close()
        fragile.start(durable=True)
        assert process.poll() is None
        is_whole(app, database, list_id, content)
        second = keep(database, rows(700))
        wait_for(database, second, lambda one: one.state == "done")
    database.close()


def test_two_workers_share_the_lists_and_do_none_twice(service: Flask, cluster: Cluster) -> None:
    database = Database(cluster.empty_database())
    upgrade(database)
    contents = [rows(900 + 100 * number) for number in range(4)]
    lists = [keep(database, content) for content in contents]
    with worker(database, *BEAT, "--until-done") as one, worker(database, *BEAT, "--until-done") as two:
        ended: list[subprocess.Popen[bytes]] = [one, two]
        assert [process.wait(PATIENCE_S) for process in ended] == [0, 0]
    for list_id, content in zip(lists, contents, strict=True):
        is_whole(service, database, list_id, content)
    database.close()
