"""The page that a customer takes home: it needs no script, and opens for whoever has its address until it expires."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from flask import Blueprint, Response, render_template, request
from werkzeug.exceptions import NotFound

from service.api.hand_outs import link_of, opened, told
from service.domain.hand_out import HandOut
from service.domain.units import Language
from service.pages.wording import LANGUAGES, page_words
from service.present.calendar import season_calendar
from service.present.hand_out.pdf import hand_out_pdf
from service.present.hand_out.words import OF_SHEET, SOURCES, TAKE_CARE, day_of
from service.present.quick_code import code_svg

blueprint = Blueprint("hand_outs_pages", __name__, url_prefix="/h")
PRIVATE = {"Cache-Control": "no-store", "X-Robots-Tag": "noindex"}
CALENDAR, PDF, SVG = "text/calendar; charset=utf-8", "application/pdf", "image/svg+xml"


@blueprint.get("/<secret>")
def page(secret: str) -> Response:
    """The sheet as a page to read on a phone or to print."""
    try:
        made = opened(secret)
    except NotFound:
        language = request.accept_languages.best_match(LANGUAGES) or "en"
        gone = render_template("hand_out_gone.html", language=language, words=page_words(_known(language)))
        return Response(gone, status=404, headers=PRIVATE)
    language = made.sheet["language"]
    shown = render_template(
        "hand_out.html", language=language, words=page_words(language), sheet=made.sheet, made=told(made),
        says=_says(made), headings={"care": TAKE_CARE[language], "sources": SOURCES[language]},
    )  # fmt: skip
    return Response(shown, headers=PRIVATE)


@blueprint.get("/<secret>/sheet.pdf")
def pdf(secret: str) -> Response:
    """The sheet as a PDF."""
    made = opened(secret)
    written = hand_out_pdf(made.sheet, address=link_of(made), expires_on=made.expires_at[:10])
    return Response(written, content_type=PDF, headers=_named("fruit-trees.pdf"))


@blueprint.get("/<secret>/dates.ics")
def dates(secret: str) -> Response:
    """The dates of the sheet as a calendar."""
    made = opened(secret)
    if not made.sheet["dated"]:
        raise NotFound("This hand-out has no dates.")
    plan = {"answer": {"language": made.sheet["language"], "plan": made.secret, "trees": made.sheet["dated"]}}
    return Response(season_calendar(plan, datetime.now(UTC)), content_type=CALENDAR, headers=_named("fruit-trees.ics"))


@blueprint.get("/<secret>/code.svg")
def code(secret: str) -> Response:
    """The address of the page as a code for the camera of a phone."""
    made = opened(secret)
    title = OF_SHEET["code"][_known(made.sheet["language"])]
    return Response(code_svg(link_of(made), title=title), content_type=SVG, headers=PRIVATE)


def _says(made: HandOut) -> Mapping[str, str]:
    sheet: Mapping[str, Any] = made.sheet
    language: Language = sheet["language"]
    days = {"made": sheet["made_on"], "expires": made.expires_at[:10]}
    shown = {name: OF_SHEET[name][language].format(day=day_of(day, language=language)) for name, day in days.items()}
    rest = {name: OF_SHEET[name][language] for name in ("calendar", "pdf", "code")}
    return {**shown, **rest, "rulebook": OF_SHEET["rulebook"][language].format(digest=sheet["rulebook"][:12])}


def _named(name: str) -> dict[str, str]:
    return {**PRIVATE, "Content-Disposition": f'inline; filename="{name}"'}


def _known(language: str) -> Language:
    return "es" if language == "es" else "en"
