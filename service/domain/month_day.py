"""A day of the year without its year: frost dates, harvest times and the ends of a winter are told so.

Rules compare such days as numbers. The count starts on 1 January in the northern hemisphere and on 1 July in the
southern, so that spring, harvest and autumn follow one another there as well.
"""

from __future__ import annotations

import re
from typing import NamedTuple

_TEXT = re.compile(r"(\d{1,2})-(\d{1,2})\Z")
_MONTH_LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_YEAR = sum(_MONTH_LENGTHS)
_BEFORE = tuple(sum(_MONTH_LENGTHS[:month]) for month in range(12))
_HALF_YEAR = _BEFORE[6]


class MonthDay(NamedTuple):
    """A month and a day of that month; 29 February exists."""

    month: int
    day: int

    @property
    def text(self) -> str:
        """The form that requests and answers use.

        >>> MonthDay(3, 20).text
        '03-20'
        """
        return f"{self.month:02d}-{self.day:02d}"


def read_month_day(text: str) -> MonthDay:
    """The day that a text such as "03-20" names; a ValueError says what is wrong with it.

    >>> read_month_day("10-05")
    MonthDay(month=10, day=5)
    """
    match = _TEXT.match(text.strip())
    if match is None:
        raise ValueError(f"“{text}” is not a month and a day; write 03-20 for March 20")
    month, day = int(match[1]), int(match[2])
    if not 1 <= month <= 12:
        raise ValueError(f"there is no month {month}; write the month first, 03-20 for March 20")
    if not 1 <= day <= _MONTH_LENGTHS[month - 1] + (month == 2):
        raise ValueError(f"month {month} has no day {day}")
    return MonthDay(month, day)


def day_of_season(day: MonthDay, *, southern: bool = False) -> int:
    """The day's number in a year of 365 days, counted from 1 January, or from 1 July in the southern hemisphere.

    >>> day_of_season(MonthDay(3, 1)), day_of_season(MonthDay(2, 29))
    (60, 60)
    >>> day_of_season(MonthDay(9, 1), southern=True)
    63
    """
    number = _BEFORE[day.month - 1] + day.day
    return number if not southern else (number - _HALF_YEAR - 1) % _YEAR + 1


def season_day(number: int, *, southern: bool = False) -> MonthDay:
    """The calendar day with that number: the reverse of `day_of_season`.

    >>> season_day(60), season_day(63, southern=True), season_day(366)
    (MonthDay(month=3, day=1), MonthDay(month=9, day=1), MonthDay(month=12, day=31))
    """
    number = min(max(number, 1), _YEAR)
    if southern:
        number = (number + _HALF_YEAR - 1) % _YEAR + 1
    month = next(month for month in range(12, 0, -1) if _BEFORE[month - 1] < number)
    return MonthDay(month, number - _BEFORE[month - 1])
