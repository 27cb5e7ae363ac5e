"""`fruitwright worker`: check planting lists that are kept, on as many machines as there are."""

from __future__ import annotations

import os
import signal

import click

from service.assembly import assemble
from service.batches.embedded import EmbeddedWorker
from service.observe.logs import configure_logs
from service.questions.suggestion import prepare
from service.settings import read_settings

SIGNALS = (signal.SIGTERM, signal.SIGINT)


@click.command("worker")
@click.option("--until-done", is_flag=True, help="Stop when nothing is left to do.")
@click.option("--beat", type=click.FloatRange(0.2, 600), default=10.0, show_default=True, metavar="SECONDS",
              help="How often it says that it lives; its work goes to another after three times as long.")  # fmt: skip
def worker(until_done: bool, beat: float) -> None:
    """Check kept planting lists, one after the other, until the process is stopped.

    Over PostgreSQL start one for each core that is to check lists, on any machine. Over SQLite the web server checks
    lists itself, and this does the same beside it, one process at a time.
    """
    settings = read_settings(os.environ)
    configure_logs(settings.log_level, settings.log_format)
    app = assemble(settings)
    prepare(app.extensions["fruitwright"].rulebook)
    if settings.database_url.startswith("sqlite"):
        embedded = EmbeddedWorker(app, beat)
        before = {name: signal.signal(name, lambda *_: embedded.ask_to_stop()) for name in SIGNALS}
        embedded.run(until_done=until_done)
        for name, handler in before.items():
            signal.signal(name, handler)
        return
    from service.batches.worker import Pace, run_worker  # noqa: PLC0415  (SQLite needs no queue)

    run_worker(app, Pace(beat, until_done))
