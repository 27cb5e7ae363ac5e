"""Joins the parts of the service: settings, rulebook, matchers, database, API and pages."""

from __future__ import annotations

from importlib.metadata import version

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from service.api import resources
from service.api.document import make_api
from service.api.json_text import OrjsonProvider
from service.api.kiosk_door import admit_kiosks
from service.api.problems import explain_errors
from service.intake.store_climate import read_store_climate
from service.knowledge.climate import read_climate
from service.knowledge.names import NameBook
from service.observe.logs import log_requests
from service.observe.metrics import measure_requests
from service.pages.doors import blueprint as pages
from service.pages.doors import guard_pages
from service.pages.hand_out_doors import blueprint as hand_out_pages
from service.pages.packing import pack_answers
from service.parts import Parts
from service.reasoning.engine import EngineMatcher
from service.reasoning.matcher import Matcher
from service.reasoning.plain import PlainMatcher
from service.reasoning.rulebook import Rulebook, load_rulebook
from service.settings import Settings
from service.storage.database import Database


def assemble(settings: Settings, rulebook: Rulebook | None = None) -> Flask:
    """The web application of these settings; reads the rulebook when none is given."""
    book = rulebook or load_rulebook(settings.rules, overlay=settings.store_rules)
    app = Flask("service", static_folder=None)
    app.json = OrjsonProvider(app)
    app.config["MAX_CONTENT_LENGTH"] = settings.max_body_bytes
    app.extensions["fruitwright"] = join(settings, book)
    if settings.trusted_proxies:
        hops = settings.trusted_proxies
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    _open_doors(app)
    return app


def join(settings: Settings, rulebook: Rulebook) -> Parts:
    """The parts that views lean on."""
    asking, sweeping = _matchers(settings.matcher, rulebook)
    return Parts(
        settings=settings,
        rulebook=rulebook,
        asking=asking,
        sweeping=sweeping,
        names=NameBook(rulebook.catalogue),
        database=Database(settings.database_url),
        climate=read_climate(settings.rules, rulebook.sources),
        store_climate=None if settings.store_climate is None else read_store_climate(settings.store_climate),
    )


def _matchers(which: str, rulebook: Rulebook) -> tuple[Matcher, Matcher]:
    asking: Matcher = PlainMatcher(rulebook) if which == "plain" else EngineMatcher(rulebook)
    sweeping: Matcher = asking if which in ("plain", "engine") else PlainMatcher(rulebook)
    return asking, sweeping


def _open_doors(app: Flask) -> None:
    explain_errors(app)
    log_requests(app)
    measure_requests(app)
    admit_kiosks(app)
    api = make_api(app, version("fruitwright"))
    app.extensions["fruitwright_api"] = api
    for blueprint in resources():
        api.register_blueprint(blueprint)
    app.register_blueprint(pages)
    app.register_blueprint(hand_out_pages)
    pack_answers(app)
    guard_pages(app)
