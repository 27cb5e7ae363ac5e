"""The application that the web server loads. Both matchers are tried against each other before it answers anyone."""

from __future__ import annotations

import gc
import os
import sys

import structlog
from flask import Flask

from service import create_app
from service.domain.errors import FruitwrightError
from service.observe.logs import configure_logs
from service.parts import Parts
from service.questions.suggestion import prepare
from service.reasoning.accord import check_accord
from service.reasoning.plain import PlainMatcher
from service.settings import read_settings


def settle() -> None:
    """Take what was built at start out of the collector's rounds, which would walk through all of it again and again.

    It also keeps the memory that forked workers share from being touched, and so from being copied.
    """
    gc.collect()
    gc.freeze()


def _start() -> Flask:
    settings = read_settings(os.environ)
    configure_logs(settings.log_level, settings.log_format)
    app = create_app(settings)
    parts: Parts = app.extensions["fruitwright"]
    rulebook = parts.rulebook
    check_accord(rulebook, parts.asking, PlainMatcher(rulebook))
    prepare(rulebook)  # before the workers fork, so that they share it and no first question waits for it
    settle()
    log = structlog.get_logger("fruitwright.start")
    log.info("ready", rules=len(rulebook.rules), cultivars=len(rulebook.catalogue.cultivars), digest=rulebook.digest)
    return app


try:
    app = _start()
except FruitwrightError as fault:
    sys.exit(f"Fruitwright does not start:\n{fault}")
