"""A season plan as a calendar after RFC 5545: one whole-day event a task.

It is written from the plan as plain data. The same plan asked again gives events of the same UID, so that a calendar
that imports it anew moves them and adds none; DTSTAMP says when it was written.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta
from typing import Any

from icalendar import Calendar, Event
from icalendar.enums import TRANSP

from service.domain.units import Language, quantity_text
from service.present.season_words import BY_CALENDAR, CALENDAR_NAME, ESTIMATE, IF_SEEN

_PRODUCT = "-//Fruitwright//Season plan//EN"
_NAMESPACE = uuid.uuid5(uuid.NAMESPACE_OID, "fruitwright season plan")


def season_calendar(told: Mapping[str, Any], stamp: datetime) -> bytes:
    """The calendar of a plan; `stamp` is the moment in UTC at which it is written."""
    answer = told["answer"]
    language: Language = answer["language"]
    calendar = Calendar.new(
        prodid=_PRODUCT, uid=_uid(answer), name=CALENDAR_NAME[language], language=language, method="PUBLISH"
    )
    for tree in answer["trees"]:
        for task in tree["tasks"]:
            calendar.add_component(_event(task, named=tree["named"], stamp=stamp, language=language))
    written: bytes = calendar.to_ical()
    return written


def _uid(answer: Mapping[str, Any]) -> uuid.UUID:
    """The same for the same trees of the same plan."""
    return uuid.uuid5(_NAMESPACE, "/".join([answer["plan"] or "", *(tree["tree"] for tree in answer["trees"])]))


def _event(task: Mapping[str, Any], *, named: str, stamp: datetime, language: Language) -> Event:
    return Event.new(
        uid=task["uid"],
        stamp=stamp,
        start=date.fromisoformat(task["from"]),
        end=date.fromisoformat(task["to"]) + timedelta(days=1),
        summary=f"{named}: {task['what']}",
        description="\n\n".join(_paragraphs(task, language)),
        categories=[task["kind_name"]],
        transparency=TRANSP.TRANSPARENT,
    )


def _paragraphs(task: Mapping[str, Any], language: Language) -> Iterator[str]:
    """What to do, then how sure the dates are, then what to beware of."""
    if task["standing"] == "if_seen":
        yield IF_SEEN[language]
    if task["text"]:
        yield task["text"]
    if task["basis"] == "estimated":
        yield ESTIMATE[language].format(days=quantity_text(task["spread_days"], "days", language=language))
    elif task["basis"] == "calendar":
        yield BY_CALENDAR[language]
    yield from task["cautions"]
