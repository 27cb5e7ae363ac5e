"""Days of the year without a year."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.month_day import MonthDay, day_of_season, read_month_day, season_day


@given(number=st.integers(1, 365), southern=st.booleans())
def test_a_day_of_the_season_comes_back_as_itself(number: int, southern: bool) -> None:
    assert day_of_season(season_day(number, southern=southern), southern=southern) == number


@given(number=st.integers(1, 365))
def test_the_southern_count_is_the_northern_one_half_a_year_later(number: int) -> None:
    assert (day_of_season(season_day(number, southern=True)) - number) % 365 == 181


@pytest.mark.parametrize("text", ["13-01", "02-30", "20-03-2026", "march 20", "", "00-10", "04-31"])
def test_what_is_no_day_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(ValueError, match="month"):
        read_month_day(text)


def test_the_last_of_february_exists() -> None:
    assert read_month_day("02-29") == MonthDay(2, 29)
