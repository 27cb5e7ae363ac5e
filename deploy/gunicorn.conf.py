"""How gunicorn serves Fruitwright. Everything that changes from place to place comes from the settings.

See `fruitwright config` for the settings; this file holds what follows from how the service is built.
"""

import os
import shutil
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from service.observe.logs import configuration
from service.settings import CHECKOUT, read_settings

settings = read_settings(os.environ)

bind = f"{settings.host}:{settings.port}"
# A question is a few milliseconds of computing, and numpy and HiGHS let go of the interpreter's lock: a few threads
# keep a worker busy while another waits for the database or a slow tablet.
worker_class = "gthread"
workers = settings.workers
threads = settings.threads
# The rulebook is read, checked and hashed once in the parent; the workers share its memory and all serve the same one.
preload_app = True
timeout = settings.request_seconds
# A worker that is asked to stop finishes the questions it has begun.
graceful_timeout = settings.request_seconds
# Longer than the usual idle time of a load balancer, so that the balancer closes first and no request is lost.
keepalive = 75
# Our own log line for each request carries the request id and leaves out addresses and what was typed.
accesslog = None
logconfig_dict = configuration(settings.log_level, settings.log_format)
# Workers are managed by signals and by the supervisor; a control socket would be one more door to watch.
control_socket_disable = True
# A heartbeat file on a disk can stall a worker; a memory file system cannot.
worker_tmp_dir = "/dev/shm" if os.path.isdir("/dev/shm") else None
# The longest address of the API is far below this; the default would take more than it needs to.
limit_request_line = 4094

# Each worker writes its numbers here, and /metrics adds them up; those of an earlier start would be added too.
metrics_dir = CHECKOUT / "var" / f"metrics-{settings.port}"
shutil.rmtree(metrics_dir, ignore_errors=True)
metrics_dir.mkdir(parents=True, exist_ok=True)
os.environ["PROMETHEUS_MULTIPROC_DIR"] = str(metrics_dir)


def post_fork(server, worker):
    """A connection that the parent opened must not be used by two processes."""
    worker.app.wsgi().extensions["fruitwright"].database.let_go()


def post_worker_init(worker):
    """Over SQLite long planting lists are checked here; over PostgreSQL `fruitwright worker` does it."""
    if settings.database_url.startswith("sqlite"):
        from service.batches.embedded import EmbeddedWorker  # noqa: PLC0415  (the application is loaded before)

        worker.list_worker = EmbeddedWorker(worker.app.wsgi())
        worker.list_worker.start()


def worker_exit(server, worker):
    """Leave a list that is being checked to another, after the part that is being written."""
    if hasattr(worker, "list_worker"):
        worker.list_worker.stop()


def on_exit(server):
    """The numbers of a service that has stopped are of no use."""
    shutil.rmtree(metrics_dir, ignore_errors=True)


def child_exit(server, worker):
    """Let /metrics forget the gauges of a worker that is gone."""
    from prometheus_client import multiprocess  # noqa: PLC0415  (reads the folder's name when it is imported)

    multiprocess.mark_process_dead(worker.pid)
