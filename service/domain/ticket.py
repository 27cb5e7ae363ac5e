"""A ticket of the kiosk: a short number under which the counter finds what a customer told, until the day ends."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta, tzinfo
from typing import Any, Literal, get_args

CameFor = Literal["choose", "my_tree", "trouble"]
CAME_FOR: tuple[CameFor, ...] = get_args(CameFor)


@dataclass(frozen=True, slots=True)
class Ticket:
    """Questions that wait for the counter; times are UTC as text, and the number is empty until it is kept."""

    came_for: str
    language: str
    questions: tuple[Mapping[str, Any], ...]
    made_at: str
    expires_at: str
    number: str = ""


def end_of_day(now: datetime, zone: tzinfo | None) -> datetime:
    """The midnight that ends the day of a store in its time zone; without one, in that of the machine.

    >>> from zoneinfo import ZoneInfo
    >>> end_of_day(datetime(2026, 3, 8, 6, 30, tzinfo=UTC), ZoneInfo("America/Los_Angeles")).isoformat()
    '2026-03-08T08:00:00+00:00'
    """
    tomorrow = now.astimezone(zone).date() + timedelta(days=1)
    return datetime.combine(tomorrow, time(), tzinfo=zone).astimezone(UTC)
