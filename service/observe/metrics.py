"""Counts and durations for a Prometheus server.

With several web processes each writes its numbers into files of the folder PROMETHEUS_MULTIPROC_DIR, and whichever
process is asked adds them up; deploy/gunicorn.conf.py sets that folder. With one process the numbers stay in memory.
"""

from __future__ import annotations

import os
import time

from flask import Flask, Response, g, request
from prometheus_client import CONTENT_TYPE_LATEST, REGISTRY, CollectorRegistry, Counter, Histogram, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

SECONDS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)
answered = Counter("fruitwright_answered", "Requests that were answered.", ("method", "route", "status"))
duration = Histogram("fruitwright_answer_seconds", "Time to the answer.", ("route",), buckets=SECONDS)
defects = Counter(
    "fruitwright_defects", "Answers that contradicted themselves, by kind; should stay at zero.", ("kind",)
)


def measure_requests(app: Flask) -> None:
    """Count each answered request by its route, never by its address, which may name a customer's site."""
    app.before_request(_begin)
    app.after_request(_end)


def exposition() -> tuple[bytes, str]:
    """The numbers of all web processes as text, and its media type."""
    if "PROMETHEUS_MULTIPROC_DIR" not in os.environ:
        return generate_latest(REGISTRY), CONTENT_TYPE_LATEST
    registry = CollectorRegistry()
    MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
    return generate_latest(registry), CONTENT_TYPE_LATEST


def _begin() -> None:
    g.measured_from_s = time.perf_counter()


def _end(response: Response) -> Response:
    route = request.url_rule.rule if request.url_rule else "none"
    answered.labels(request.method, route, str(response.status_code)).inc()
    duration.labels(route).observe(time.perf_counter() - g.measured_from_s)
    return response
