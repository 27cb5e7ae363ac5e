"""Logs: one JSON object a line, one pipeline for our own lines and those of the libraries.

Every line of a request carries its id. What people typed, their addresses and their browsers are never logged: the
store's staff and its customers stay private.
"""

from __future__ import annotations

import logging
import logging.config
import re
import sys
import time
import uuid
from typing import Any, TextIO

import structlog
from flask import Flask, Response, g, request
from structlog.typing import Processor

_ID = re.compile(r"[A-Za-z0-9._-]{8,64}")
SHARED: list[Processor] = [
    structlog.contextvars.merge_contextvars,
    structlog.stdlib.add_log_level,
    structlog.stdlib.add_logger_name,
    structlog.processors.TimeStamper(fmt="iso", utc=True),
]
log = structlog.get_logger("fruitwright.requests")


class ToStandardError(logging.StreamHandler[TextIO]):
    """Writes to what standard error is now, not to what it was when logging was configured."""

    @property
    def stream(self) -> TextIO:
        """Standard error."""
        return sys.stderr

    @stream.setter
    def stream(self, _: TextIO) -> None:
        """Standard error it stays."""


def configure_logs(level: str, form: str) -> None:
    """Send every log line of the process, ours and the libraries', to standard error in one form."""
    structlog.configure(
        processors=[*SHARED, structlog.stdlib.ProcessorFormatter.wrap_for_formatter],
        logger_factory=structlog.stdlib.LoggerFactory(),
        wrapper_class=structlog.stdlib.BoundLogger,
    )
    logging.config.dictConfig(configuration(level, form))


def configuration(level: str, form: str) -> dict[str, Any]:
    """The logging configuration; the web server takes the same, so that its lines look like ours."""
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"line": {"()": _formatter, "form": form}},
        "handlers": {"stderr": {"()": ToStandardError, "formatter": "line"}},
        "root": {"handlers": ["stderr"], "level": level.upper()},
        "loggers": {
            "gunicorn.error": {"handlers": [], "level": level.upper(), "propagate": True},
            "gunicorn.access": {"handlers": [], "level": "CRITICAL", "propagate": False},  # it names addresses
            "alembic": {"level": "WARNING"},  # it announces itself whenever a revision is looked up
        },
    }


def _formatter(form: str) -> logging.Formatter:
    last: Processor = structlog.dev.ConsoleRenderer() if form == "text" else structlog.processors.JSONRenderer()
    steps: list[Processor] = [structlog.stdlib.ProcessorFormatter.remove_processors_meta]
    if form == "json":
        steps.append(structlog.processors.format_exc_info)
    return structlog.stdlib.ProcessorFormatter(foreign_pre_chain=SHARED, processors=[*steps, last])


def log_requests(app: Flask) -> None:
    """Give each request an id and log one line when it is answered."""
    app.before_request(_begin)
    app.after_request(_end)


def request_id(offered: str | None) -> str:
    """The id that a caller or a proxy offers, when it is a plain one; otherwise a new one.

    >>> request_id("till-3.0042")
    'till-3.0042'
    >>> len(request_id("no; spaces"))
    32
    """
    return offered if offered and _ID.fullmatch(offered) else uuid.uuid4().hex


def _begin() -> None:
    g.began_s = time.perf_counter()
    g.request_id = request_id(request.headers.get("X-Request-Id"))
    structlog.contextvars.clear_contextvars()
    structlog.contextvars.bind_contextvars(request_id=g.request_id)


def _end(response: Response) -> Response:
    response.headers["X-Request-Id"] = g.request_id
    facts: dict[str, Any] = {
        "method": request.method,
        "route": request.url_rule.rule if request.url_rule else None,
        "status": response.status_code,
        "milliseconds": round((time.perf_counter() - g.began_s) * 1000, 1),
    }
    (log.debug if request.path in ("/livez", "/readyz", "/healthz", "/metrics") else log.info)("answered", **facts)
    return response
