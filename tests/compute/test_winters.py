"""Winters cut out of a series: their names, their ends, leap years, and what is missing of them."""

from __future__ import annotations

import numpy as np
import pytest

from service.compute.winters import Span, coverage_of, rows_of, southern_window, spans_of
from service.domain.climate import WinterWindow
from service.domain.month_day import MonthDay

WINTER = WinterWindow(MonthDay(11, 1), MonthDay(2, 28))


def spans(window: WinterWindow, first: str, last: str, *, southern: bool = False) -> tuple[Span, ...]:
    days = int((np.datetime64(last) - np.datetime64(first)) / np.timedelta64(1, "D")) + 1
    return spans_of(window, first_day=np.datetime64(first), days=days, southern=southern)


def test_the_end_of_february_includes_the_29th() -> None:
    lengths = {span.label: span.days for span in spans(WINTER, "2010-07-01", "2013-06-30")}
    assert lengths == {"2010-11": 120, "2011-12": 121, "2012-13": 120}


def test_a_winter_that_ends_on_the_27th_ends_on_the_27th() -> None:
    (span,) = spans(WinterWindow(MonthDay(11, 1), MonthDay(2, 27)), "2011-11-01", "2012-02-29")
    assert span.days == 119


def test_the_turn_of_a_century_keeps_both_its_digits() -> None:
    assert [span.label for span in spans(WINTER, "1999-11-01", "2000-02-29")] == ["1999-00"]


def test_a_window_after_new_year_belongs_to_the_winter_that_began_before() -> None:
    window = WinterWindow(MonthDay(1, 1), MonthDay(2, 28))
    assert [span.label for span in spans(window, "2013-01-01", "2013-02-28")] == ["2012-13"]


def test_southern_winters_are_called_by_their_year() -> None:
    window = southern_window(WinterWindow(MonthDay(11, 1), MonthDay(2, 29)))
    found = spans(window, "2012-01-01", "2013-12-31", southern=True)
    assert [(span.label, str(span.first_day), span.days) for span in found] == [
        ("2012", "2012-05-01", 123),
        ("2013", "2013-05-01", 123),
    ]


@pytest.mark.parametrize(
    ("northern", "southern"),
    [((7, 1), (1, 1)), ((6, 30), (12, 31)), ((2, 28), (8, 28)), ((8, 31), (2, 29)), ((12, 15), (6, 15))],
)
def test_half_a_year_on_keeps_the_end_of_a_month(northern: tuple[int, int], southern: tuple[int, int]) -> None:
    turned = southern_window(WinterWindow(MonthDay(1, 1), MonthDay(*northern)))
    assert turned.last == MonthDay(*southern)


def test_a_winter_that_the_series_cuts_is_covered_in_part() -> None:
    found = spans(WINTER, "2013-01-01", "2013-12-31")
    rows = rows_of(np.ones(365), found, first_day=np.datetime64("2013-01-01"), per_day=1)
    assert [span.label for span in found] == ["2012-13", "2013-14"]
    assert coverage_of(rows, found, per_day=1) == pytest.approx([59 / 120, 61 / 120])


def test_values_stand_on_their_own_days() -> None:
    days = np.arange("2011-10-01", "2012-04-01", dtype="datetime64[D]")
    found = spans(WINTER, "2011-10-01", "2012-03-31")
    rows = rows_of(np.arange(days.size, dtype=float), found, first_day=days[0], per_day=1)
    assert days[int(rows[0, 0])] == np.datetime64("2011-11-01")
    assert days[int(rows[0, -1])] == np.datetime64("2012-02-29")


def test_a_series_that_touches_no_winter_has_none() -> None:
    assert spans(WINTER, "2013-06-01", "2013-08-31") == ()
    assert rows_of(np.ones(5), (), first_day=np.datetime64("2013-06-01"), per_day=1).shape == (0, 0)
