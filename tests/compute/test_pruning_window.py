"""Days run in a circle, and whatever narrows a window only ever takes days away."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.pruning_window import (
    Days,
    closed_before,
    dates_of,
    day_number,
    days_until,
    opened_after,
    standing,
)

DAY = st.integers(1, 365)
DAYS = st.builds(Days, DAY, DAY)
DATE = st.dates(date(2023, 1, 1), date(2030, 12, 31))


def every_day(days: Days | None) -> set[int]:
    return set() if days is None else {(days.from_day - 1 + step) % 365 + 1 for step in range(days.length + 1)}


@given(DAYS, DAY)
def test_harvest_never_adds_a_day(days: Days, last_picked: int) -> None:
    left = every_day(opened_after(days, last_picked))
    assert left <= every_day(days)
    if days.length <= 182:  # a harvest counts toward the nearer opening
        assert last_picked not in left


@given(DAYS, DAY, st.integers(0, 12))
def test_a_deadline_never_adds_a_day(days: Days, deadline: int, weeks: int) -> None:
    assert every_day(closed_before(days, deadline, weeks=weeks)) <= every_day(days)


@given(DAYS, DAY, st.integers(0, 11))
def test_more_weeks_before_the_rain_never_leave_more_days(days: Days, rain: int, weeks: int) -> None:
    near = (rain - 7 * (weeks + 1) - days.from_day) % 365 <= 243 - 7  # the deadline stays on one side of the opening
    if near:
        more = every_day(closed_before(days, rain, weeks=weeks + 1))
        assert more <= every_day(closed_before(days, rain, weeks=weeks))


@given(DAYS, DAY)
def test_a_day_is_in_its_window_exactly_when_the_window_is_open(days: Days, day: int) -> None:
    assert (standing(days, day).state == "open") == (day in every_day(days))


@given(DAYS, DAY)
def test_a_window_that_is_not_open_says_how_long_it_takes(days: Days, day: int) -> None:
    where = standing(days, day)
    assert (where.days_left is None) == (where.state != "open")
    if where.days_to_open is not None:
        assert (day + where.days_to_open - 1) % 365 + 1 == days.from_day


@given(DAYS, DATE, st.booleans())
def test_the_dates_told_are_those_of_the_window_that_is_open_or_comes_next(
    days: Days, today: date, southern: bool
) -> None:
    opens, closes = dates_of(days, today, southern=southern)
    assert today <= closes
    assert opens <= closes < opens + timedelta(days=367)
    assert day_number(opens, southern=southern) == days.from_day
    assert day_number(closes, southern=southern) == days.to_day
    if standing(days, day_number(today, southern=southern)).state == "open":
        assert opens <= today


def test_a_leap_day_counts_as_the_first_of_march() -> None:
    assert day_number(date(2028, 2, 29)) == day_number(date(2028, 3, 1))
    assert dates_of(Days(32, 75), date(2028, 2, 29)) == (date(2028, 2, 1), date(2028, 3, 16))


def test_a_place_without_days_is_told_as_such() -> None:
    assert standing(None, 100).state == "none"


@pytest.mark.parametrize(("frost", "today", "away"), [(105, 80, 25), (105, 120, -15), (5, 360, 10), (360, 5, -10)])
def test_the_nearer_frost_is_counted_to(frost: int, today: int, away: int) -> None:
    assert days_until(frost, today=today) == away


@pytest.mark.parametrize("frost_day", [270, 300, 330, 365])
def test_a_late_first_frost_leaves_the_cuts_of_may_alone(frost_day: int) -> None:
    may = Days(121, 151)
    assert closed_before(may, frost_day, weeks=6) == may
