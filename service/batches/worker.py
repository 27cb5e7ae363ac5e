"""A worker for lists that are kept in PostgreSQL, one of as many as there are machines and cores for.

Procrastinate hands a check to one worker at a time and notes the worker's heartbeat. When a worker dies, its check is
handed out again as soon as the heartbeat is old; when the database goes away, the worker waits for it and goes on.
"""

from __future__ import annotations

import asyncio
import contextlib
import signal
from collections.abc import AsyncIterator
from dataclasses import dataclass

import structlog
from flask import Flask
from procrastinate import App, BaseRetryStrategy, JobContext, PsycopgConnector, RetryDecision
from procrastinate.exceptions import ConnectorException
from procrastinate.jobs import Job

from service.batches import checking
from service.parts import Parts
from service.storage.queue import QUEUE, TASK, address_of_queue

AFTER_FAULT_S = 5
log = structlog.get_logger("fruitwright.lists")


@dataclass(frozen=True, slots=True)
class Pace:
    """How often a worker says that it lives; one that was silent for three times as long is taken for dead."""

    beat_s: float = 10.0
    until_done: bool = False

    @property
    def dead_after_s(self) -> float:
        """The silence after which a worker is taken for dead."""
        return 3 * self.beat_s


class _TryAgain(BaseRetryStrategy):
    """Each check is tried again: at once where its worker was stopped, later after a fault; the check itself counts."""

    def get_retry_decision(self, *, exception: BaseException, job: Job) -> RetryDecision:
        return RetryDecision(retry_in={"seconds": 0 if isinstance(exception, checking.Stopped) else AFTER_FAULT_S})


def run_worker(app: Flask, pace: Pace) -> None:
    """Work until a signal says to stop, or until nothing is left to do."""
    asyncio.run(_Worker(app, pace).run())


class _Worker:
    def __init__(self, app: Flask, pace: Pace) -> None:
        parts: Parts = app.extensions["fruitwright"]
        self._app, self._pace, self._asked_to_stop = app, pace, False
        address = address_of_queue(parts.settings.database_url)
        self._queue = App(connector=PsycopgConnector(conninfo=address, min_size=1, max_size=4))
        self._queue.task(name=TASK, queue=QUEUE, pass_context=True, retry=_TryAgain())(self._check)

    async def run(self) -> None:
        """Run one worker after another, since Procrastinate's stops when the database goes away."""
        loop, stopped = asyncio.get_running_loop(), asyncio.Event()
        for name in (signal.SIGTERM, signal.SIGINT):
            loop.add_signal_handler(name, stopped.set)
        waits = asyncio.create_task(stopped.wait())
        while not stopped.is_set():
            work = asyncio.create_task(self._work())
            await asyncio.wait((work, waits), return_when=asyncio.FIRST_COMPLETED)
            if not work.done():
                self._asked_to_stop = True
                work.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                if await work and self._pace.until_done:
                    break
            if not stopped.is_set():
                await asyncio.sleep(checking.PAUSE_S)
        waits.cancel()

    async def _work(self) -> bool:
        """Work until nothing is left (only where that ends it) or the database goes away; says whether all is done."""
        try:
            async with self._queue.open_async(), self._reviving():
                await self._queue.run_worker_async(
                    queues=[QUEUE],
                    wait=not self._pace.until_done,
                    delete_jobs="successful",
                    install_signal_handlers=False,
                    update_heartbeat_interval=self._pace.beat_s,
                    stalled_worker_timeout=self._pace.dead_after_s,
                    shutdown_graceful_timeout=self._pace.beat_s,
                )
        except ConnectorException as fault:
            log.warning("queue away", exc_info=fault)
            return False
        return True

    @contextlib.asynccontextmanager
    async def _reviving(self) -> AsyncIterator[None]:
        """Hand out again what dead workers had, now and from time to time."""
        await self._revive()
        task = asyncio.create_task(self._revive_now_and_then())
        try:
            yield
        finally:
            task.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await task

    async def _revive_now_and_then(self) -> None:
        while True:
            await asyncio.sleep(self._pace.beat_s)
            with contextlib.suppress(ConnectorException):
                await self._revive()

    async def _revive(self) -> None:
        jobs = self._queue.job_manager
        for job in await jobs.get_stalled_jobs(queue=QUEUE, seconds_since_heartbeat=self._pace.dead_after_s):
            with contextlib.suppress(ConnectorException):  # another worker was faster
                await jobs.retry_job(job)
                log.info("check revived", job=job.id)

    def _check(self, context: JobContext, check: str) -> None:
        checking.check(self._app, check, lambda: self._asked_to_stop or context.should_abort())
