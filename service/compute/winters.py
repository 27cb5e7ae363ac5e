"""Cuts a series into winters, or into any window that comes round every year, and draws the safe figure from them.

A window that crosses New Year belongs to the year in which it began. Northern years are named by both their calendar
years, "2012-13", southern ones by the one in which their winter falls, "2013".
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.domain.climate import WinterWindow
from service.domain.month_day import MonthDay
from service.domain.weather import Flags, Floats

_ONE_DAY = np.timedelta64(1, "D")
_JULY = 7


@dataclass(frozen=True, slots=True)
class Span:
    """One round of a window: its name, its first day and its number of days."""

    label: str
    first_day: np.datetime64
    days: int


def southern_window(window: WinterWindow) -> WinterWindow:
    """The same window six months later; the end of a month stays the end of a month.

    >>> southern_window(WinterWindow(MonthDay(11, 1), MonthDay(2, 29)))
    WinterWindow(first=MonthDay(month=5, day=1), last=MonthDay(month=8, day=31))
    """
    return WinterWindow(_half_a_year_on(window.first), _half_a_year_on(window.last))


def spans_of(window: WinterWindow, *, first_day: np.datetime64, days: int, southern: bool) -> tuple[Span, ...]:
    """Every round of the window that shares at least a day with a series of so many days.

    >>> winter = WinterWindow(MonthDay(11, 1), MonthDay(2, 28))
    >>> [(span.label, span.days) for span in spans_of(winter, first_day=np.datetime64("2012-01-01"), days=400,
    ...                                               southern=False)]
    [('2011-12', 121), ('2012-13', 120)]
    """
    last_day = first_day + days * _ONE_DAY
    years = range(_year(first_day) - 1, _year(last_day) + 1)
    spans = [_span(window, year, southern) for year in years]
    return tuple(span for span in spans if first_day - span.days * _ONE_DAY < span.first_day < last_day)


def rows_of(values: Floats, spans: tuple[Span, ...], *, first_day: np.datetime64, per_day: int) -> Floats:
    """One row for each span, with the values of a series that begins at `first_day`; NaN wherever it says nothing.

    >>> spans = (Span("2013", np.datetime64("2013-05-31"), 3),)
    >>> rows_of(np.array([1.0, 2.0]), spans, first_day=np.datetime64("2013-06-01"), per_day=1)
    array([[nan,  1.,  2.]])
    """
    rows: Floats = np.full((len(spans), per_day * max((span.days for span in spans), default=0)), np.nan)
    for row, span in zip(rows, spans, strict=True):
        start = int((span.first_day - first_day) / _ONE_DAY) * per_day
        stop = min(start + span.days * per_day, values.size)
        row[max(0, -start) : stop - start] = values[max(0, start) : stop]
    return rows


def coverage_of(rows: Floats, spans: tuple[Span, ...], *, per_day: int) -> Floats:
    """The share of each span on which there is a value.

    >>> coverage_of(np.array([[1.0, np.nan, 3.0, np.nan]]), (Span("2013", np.datetime64("2013-06-01"), 4),), per_day=1)
    array([0.5])
    """
    wanted = np.array([span.days * per_day for span in spans], dtype=np.float64)
    present: Flags = ~np.isnan(rows)
    return np.array([np.count_nonzero(row) for row in present]) / wanted


def exceeded_by_most(totals: Floats, quantile: float) -> float:
    """The total that falls short only in this share of winters, linear between the ranked ones.

    >>> exceeded_by_most(np.arange(1.0, 12.0), 0.1)
    2.0
    """
    return float(np.quantile(totals, quantile))


def _half_a_year_on(day: MonthDay) -> MonthDay:
    month = (day.month + 5) % 12 + 1
    if day.day >= _days_in_month(day.month) or day.day > _days_in_month(month):
        return MonthDay(month, _days_in_month(month))
    return MonthDay(month, day.day)


def _days_in_month(month: int) -> int:
    return 29 if month == 2 else 30 if month in (4, 6, 9, 11) else 31


def _span(window: WinterWindow, year: int, southern: bool) -> Span:
    first, end = _day(year, window.first), _end(year + window.crosses_new_year, window.last)
    days = int((end - first) / _ONE_DAY)
    return Span(_label(year, window, southern), first, days)


def _label(year: int, window: WinterWindow, southern: bool) -> str:
    if southern and not window.crosses_new_year:
        return str(year)
    began = year if window.crosses_new_year or window.first.month >= _JULY else year - 1
    return f"{began}-{(began + 1) % 100:02d}"


def _day(year: int, day: MonthDay) -> np.datetime64:
    """The day in that year; 29 February is 1 March where there is none."""
    return np.datetime64(f"{year}-{day.month:02d}-01") + (day.day - 1) * _ONE_DAY


def _end(year: int, last: MonthDay) -> np.datetime64:
    """The day after the last one; whoever says the 28th of February means its end."""
    if last.month == 2 and last.day >= 28:
        return np.datetime64(f"{year}-03-01")
    return _day(year, last) + _ONE_DAY


def _year(day: np.datetime64) -> int:
    return int(day.astype("datetime64[Y]").astype(int)) + 1970
