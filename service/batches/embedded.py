"""The worker in the serving process, for lists that are kept in SQLite.

Each process of the web server runs one, and a lease in the database lets one of them work at a time. It is taken when
there is something to do and renewed while it is done; when its process dies it runs out, and another goes on.
"""

from __future__ import annotations

import os
import threading
import time
import uuid

import structlog
from flask import Flask

from service.batches.checking import Stopped, check
from service.domain.list_batch import Lease
from service.parts import Parts
from service.storage.database import DatabaseAway
from service.storage.leases import give_back_lease, take_lease
from service.storage.list_checks import next_open

LEASE = "planting-lists"
BEAT_S = 5.0
LOOKS_S = 0.5
AFTER_FAULT_S = 2.0
log = structlog.get_logger("fruitwright.lists")


class EmbeddedWorker:
    """Checks lists in a thread, one after the other, until it is stopped.

    It renews its lease with every beat; after three beats of silence another takes the work.
    """

    def __init__(self, app: Flask, beat_s: float = BEAT_S) -> None:
        parts: Parts = app.extensions["fruitwright"]
        self._app, self._database, self.beat_s = app, parts.database, beat_s
        self._lease = Lease(LEASE, f"{os.getpid()}-{uuid.uuid4().hex[:12]}", 3 * beat_s)
        self._stop, self._lost = threading.Event(), threading.Event()
        self._thread = threading.Thread(target=self.run, name="planting lists", daemon=True)

    def start(self) -> None:
        """Begin to work, in a thread of its own."""
        self._thread.start()

    def ask_to_stop(self) -> None:
        """Let it stop after the part that is being checked, and leave the rest to another."""
        self._stop.set()

    def stop(self, patience_s: float = 10.0) -> None:
        """Ask the thread to stop and wait for it."""
        self.ask_to_stop()
        self._thread.join(patience_s)

    def run(self, *, until_done: bool = False) -> None:
        """Work until asked to stop, or until nothing is left to do."""
        while not self._stop.is_set():
            try:
                found = self._one()
            except DatabaseAway:
                found = False
            except Stopped:
                continue
            except Exception:  # the thread must live on; the check is tried again and given up after some times
                log.exception("list failed")
                self._stop.wait(AFTER_FAULT_S)
                continue
            if not found:
                if until_done:
                    return
                self._stop.wait(LOOKS_S)

    def _one(self) -> bool:
        """Check one list; says whether there was one to check by this process or by another."""
        check_id = next_open(self._database)
        if check_id is None:
            return False
        if not self._leased():
            self._stop.wait(LOOKS_S)
            return True
        self._lost.clear()
        try:
            with _Renewing(self):
                check(self._app, check_id, lambda: self._stop.is_set() or self._lost.is_set())
        finally:
            give_back_lease(self._database, self._lease)
        return True

    def _leased(self) -> bool:
        return take_lease(self._database, self._lease, now_s=time.time())

    def renew(self) -> None:
        """Keep the lease; where another has it now, what is being checked is left to them."""
        try:
            if not self._leased():
                self._lost.set()
        except DatabaseAway:
            log.warning("lease not renewed")


class _Renewing:
    """Renews the lease from a thread of its own while a list is checked."""

    def __init__(self, worker: EmbeddedWorker) -> None:
        self._worker, self._over = worker, threading.Event()
        self._thread = threading.Thread(target=self._run, name="planting lists lease", daemon=True)

    def __enter__(self) -> None:
        self._thread.start()

    def __exit__(self, *_: object) -> None:
        self._over.set()
        self._thread.join()

    def _run(self) -> None:
        while not self._over.wait(self._worker.beat_s):
            self._worker.renew()
