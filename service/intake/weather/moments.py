"""Dates and times as people write them: ISO, or month/day/year with a slash. Clock times are taken as they stand."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

_US = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4})(?:[ T]+(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*([AaPp])?[Mm]?)?\Z")
_YEAR_FIRST = re.compile(r"(\d{4})/(\d{1,2})/(\d{1,2})(?=[ T]|\Z)")
_END_OF_DAY = re.compile(r"(.*\d)([ T]+)24:00(:00)?\Z")
_DAY = timedelta(days=1)


def read_moment(text: str) -> datetime:
    """The moment that a text names, without a time zone; a ValueError says what is wrong with it.

    >>> read_moment("2013-01-31"), read_moment("1/31/2013 5:00 PM"), read_moment("2013-01-31 24:00")
    (datetime.datetime(2013, 1, 31, 0, 0), datetime.datetime(2013, 1, 31, 17, 0), datetime.datetime(2013, 2, 1, 0, 0))
    """
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        return _other_forms(text.strip())
    return moment if moment.tzinfo is None else moment.replace(tzinfo=None)


def _other_forms(text: str) -> datetime:
    end_of_day = _END_OF_DAY.match(text)
    if end_of_day:
        return read_moment(end_of_day[1]) + _DAY
    american = _US.match(text)
    if american:
        return _american(american)
    if _YEAR_FIRST.match(text):
        return read_moment(_YEAR_FIRST.sub(_with_hyphens, text))
    raise ValueError(f"“{text[:40]}” is not a date or time that is read here; write 2013-01-31 or 2013-01-31T17:00")


def _with_hyphens(match: re.Match[str]) -> str:
    return f"{match[1]}-{int(match[2]):02d}-{int(match[3]):02d}"


def _american(match: re.Match[str]) -> datetime:
    month, day, year = int(match[1]), int(match[2]), int(match[3])
    hour, minute = int(match[4] or 0), int(match[5] or 0)
    if match[6]:
        hour = hour % 12 + (12 if match[6] in "Pp" else 0)
    try:
        return datetime(year, month, day, hour, minute)
    except ValueError:
        raise ValueError(
            f"“{match[0]}” is not a date when it is read as month/day/year; write it as {year}-MM-DD"
        ) from None
