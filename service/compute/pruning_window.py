"""The days on which a tree may be cut: from calendar days, narrowed by harvest, rain and frost, to dates.

Days are numbers of the season (see `service.domain.month_day`) and run in a circle of 365; a window may run over the
end of the count. Which days are right, rules say; here they are only reckoned with.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from service.domain.month_day import MonthDay, day_of_season, season_day

YEAR_DAYS = 365
WEEK_DAYS = 7
_HALF_YEAR = YEAR_DAYS // 2
State = Literal["open", "ahead", "past", "none"]


@dataclass(frozen=True, slots=True)
class Days:
    """The first and the last day, both included."""

    from_day: int
    to_day: int

    @property
    def length(self) -> int:
        """How many days come after the first.

        >>> Days(182, 243).length, Days(350, 10).length
        (61, 25)
        """
        return (self.to_day - self.from_day) % YEAR_DAYS


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a date stands to the days; `days_left` while they run, `days_to_open` while they do not."""

    state: State
    days_left: int | None = None
    days_to_open: int | None = None


def opened_after(days: Days, day: int) -> Days | None:
    """The days with what lies at or before a day taken off, such as the last day of harvest; None where none are left.

    Cuts from 1 July to 31 August on a tree that is picked until 20 July; one picked until 10 June; until 1 September:

    >>> opened_after(Days(182, 243), 201), opened_after(Days(182, 243), 161), opened_after(Days(182, 243), 244)
    (Days(from_day=202, to_day=243), Days(from_day=182, to_day=243), None)
    """
    gone = _signed(day - days.from_day)
    if gone < 0:
        return days
    return None if gone >= days.length else Days(_in_year(days.from_day + gone + 1), days.to_day)


def closed_before(days: Days, day: int, *, weeks: float) -> Days | None:
    """The days with what lies within so many weeks before a day taken off, such as the first rain; None where all is.

    Six weeks before rains that begin on 1 October (day 274) is 20 August; before rains of 1 August nothing is left:

    >>> closed_before(Days(182, 243), 274, weeks=6), closed_before(Days(182, 243), 213, weeks=6)
    (Days(from_day=182, to_day=232), None)
    """
    last = _after_opening(day - round(weeks * WEEK_DAYS) - days.from_day)
    if last < 0:
        return None
    return days if last >= days.length else Days(days.from_day, _in_year(days.from_day + last))


def standing(days: Days | None, day: int) -> Standing:
    """Where a day of the season stands to the days; past while the last of them is nearer than the next.

    >>> standing(Days(182, 243), 200), standing(Days(182, 243), 40).days_to_open, standing(Days(182, 243), 300).state
    (Standing(state='open', days_left=43, days_to_open=None), 142, 'past')
    """
    if days is None:
        return Standing("none")
    gone = (day - days.from_day) % YEAR_DAYS
    if gone <= days.length:
        return Standing("open", days_left=days.length - gone)
    to_open = YEAR_DAYS - gone
    return Standing("past" if gone - days.length <= to_open else "ahead", days_to_open=to_open)


def dates_of(days: Days, today: date, *, southern: bool = False) -> tuple[date, date]:
    """The dates of the window that is open or comes next.

    >>> dates_of(Days(182, 243), date(2026, 11, 25))
    (datetime.date(2027, 7, 1), datetime.date(2027, 8, 31))
    """
    closes = _next(season_day(days.to_day, southern=southern), today)
    opens = _next(season_day(days.from_day, southern=southern), closes - timedelta(days=days.length + 1))
    return opens, closes


def day_number(today: date, *, southern: bool = False) -> int:
    """The day of the season of a date.

    >>> day_number(date(2026, 7, 1)), day_number(date(2026, 7, 1), southern=True)
    (182, 1)
    """
    return day_of_season(MonthDay(today.month, today.day), southern=southern)


def days_until(day: int, *, today: int) -> int:
    """Days to the nearer occurrence of a day, negative when it is past.

    >>> days_until(100, today=80), days_until(100, today=130), days_until(10, today=360)
    (20, -30, 15)
    """
    return _signed(day - today)


def _next(day: MonthDay, today: date) -> date:
    this_year = date(today.year, day.month, day.day)
    return this_year if this_year >= today else date(today.year + 1, day.month, day.day)


def _signed(days: int) -> int:
    return (days + _HALF_YEAR) % YEAR_DAYS - _HALF_YEAR


def _after_opening(days: int) -> int:
    """A deadline counts as before the opening only within the third of a year that leads up to it."""
    around = days % YEAR_DAYS
    return around - YEAR_DAYS if around > YEAR_DAYS * 2 // 3 else around


def _in_year(day: int) -> int:
    return (day - 1) % YEAR_DAYS + 1
