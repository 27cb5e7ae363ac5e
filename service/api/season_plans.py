"""The year of one or many trees: as JSON, as a calendar, or as a page to print."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from functools import wraps
from typing import Any, cast

from flask import Response, request
from werkzeug.exceptions import NotAcceptable

from service.api.advice import envelope
from service.api.house import Resource, parts, written
from service.api.keeping import keeps
from service.api.season_asked import SeasonAsked, read_question
from service.api.season_planned import SeasonPlanTold
from service.domain.units import Language
from service.present.calendar import season_calendar
from service.present.season import season_advice
from service.present.year_strip import year_strip
from service.questions.season import plan_season

blueprint = Resource("season-plans", "What to do to these trees in the next twelve months, and when.")
JSON, CALENDAR, STRIP = "application/json", "text/calendar", "image/svg+xml"
_TEXTS = {kind: {"schema": {"type": "string"}} for kind in (CALENDAR, STRIP)}


def in_the_wanted_kind(view: Callable[[dict[str, Any]], dict[str, Any]]) -> Callable[[dict[str, Any]], Response]:
    """The view answers with plain data, and the client gets it in the kind that it accepts."""

    @wraps(view)
    def answered(asked: dict[str, Any]) -> Response:
        wanted = request.accept_mimetypes
        kind = wanted.best_match([JSON, CALENDAR, STRIP]) if wanted else JSON
        if kind is None:
            raise NotAcceptable(f"The plan comes as {JSON}, {CALENDAR} or {STRIP}.")
        response = _written(view(asked), kind)
        response.headers["Vary"] = "Accept"
        return response

    return answered


@blueprint.route("/season-plans", methods=["POST"])
@blueprint.asks(SeasonAsked)
@blueprint.answers(envelope("SeasonPlan", SeasonPlanTold))
@blueprint.shows("bearing-fig-grows-well", {"crop": "trees.crop", "tree.bears": "trees.bears",
                 "tree.shoot_length_in": "trees.shoot_length_in"}, documented=("start",))  # fmt: skip
@blueprint.also_answers(406, "NOT_ACCEPTABLE")
@blueprint.doc(responses={200: {"content": _TEXTS}})  # type: ignore[untyped-decorator]
@in_the_wanted_kind
@keeps("season-plans")
def plan_year(asked: dict[str, Any]) -> dict[str, Any]:
    """Plan the year of one or many trees.

    The answer holds dated tasks for twelve months, from full bloom or another stage that was seen, or estimated from a
    neighbouring place or the region and marked so, with the days by which they may come earlier or later; feeding,
    water by month, and frost temperatures by stage. Ask for `text/calendar` to get the tasks as a calendar (RFC 5545)
    whose events keep their UID, or for `image/svg+xml` to get a page with the year of each tree.
    """
    house = parts()
    question = read_question(asked, today=datetime.now(UTC).date())
    answer = plan_season(question, rulebook=house.rulebook, models=house.climate, asking=house.asking)
    return season_advice(answer, rulebook=house.rulebook, language=cast(Language, asked.get("language") or "en"))


def _written(told: Mapping[str, Any], kind: str) -> Response:
    if kind == CALENDAR:
        calendar = season_calendar(told, datetime.now(UTC))
        return Response(calendar, content_type=f"{CALENDAR}; charset=utf-8", headers=_as_file("season-plan.ics"))
    if kind == STRIP:
        return Response(year_strip(told), content_type=f"{STRIP}; charset=utf-8", headers=_as_file("season-plan.svg"))
    return written(told)


def _as_file(name: str) -> dict[str, str]:
    return {"Content-Disposition": f'inline; filename="{name}"'}
