"""The spread of a harvest, counted day by day beside it; all dates and numbers of trees are made up."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.harvest_spread import Picking, empty_between, spread_over
from service.domain.month_day import season_day

DAYS = st.integers(1, 365)
PICKINGS = st.lists(st.builds(Picking, DAYS, DAYS, st.integers(0, 5)), max_size=6)


def picked_on(picking: Picking, day: int) -> bool:
    """Whether a day is among those of a picking, which may run over the turn of the count."""
    if picking.from_day <= picking.to_day:
        return picking.from_day <= day <= picking.to_day
    return day >= picking.from_day or day <= picking.to_day


def trees_on(pickings: list[Picking], days: list[int]) -> int:
    return sum(one.trees for one in pickings if any(picked_on(one, day) for day in days))


@given(PICKINGS, st.booleans())
def test_each_week_and_month_counts_the_trees_picked_on_any_of_its_days(pickings: list[Picking], south: bool) -> None:
    spread = spread_over(pickings, southern=south)
    starts = [week.from_day for week in spread.weeks]
    assert starts == list(range(1, 365, 7))[:52]
    for start, end, week in zip(starts, [*starts[1:], 366], spread.weeks, strict=True):
        assert week.trees == trees_on(pickings, list(range(start, end)))
    for month in range(1, 13):
        days = [day for day in range(1, 366) if season_day(day, southern=south).month == month]
        assert spread.months[month] == trees_on(pickings, days)


@given(PICKINGS)
def test_the_busiest_week_has_the_most_trees_and_its_share_is_of_all(pickings: list[Picking]) -> None:
    spread, trees = spread_over(pickings), sum(one.trees for one in pickings)
    if not trees:
        assert (spread.busiest, spread.busiest_share) == (None, 0.0)
        return
    assert spread.busiest is not None
    assert spread.busiest.trees == max(week.trees for week in spread.weeks)
    assert spread.busiest_share == pytest.approx(spread.busiest.trees / trees)
    assert 0 < spread.busiest_share <= 1


@given(st.sets(st.integers(1, 12)))
def test_gaps_are_all_empty_months_but_the_longest_run_of_them(picked: set[int]) -> None:
    gaps = empty_between({month: month in picked for month in range(1, 13)})
    if not picked:
        assert gaps == ()
        return
    empty = set(range(1, 13)) - picked
    assert set(gaps) <= empty
    left_out = empty - set(gaps)
    runs = [[(start + step) % 12 + 1 for step in range(length)] for start in range(12) for length in range(1, 12)]
    longest = max((len(run) for run in runs if set(run) <= empty), default=0)
    assert len(left_out) == longest
    assert not left_out or any(set(run) == left_out for run in runs)


def test_a_harvest_over_the_turn_of_the_year_has_no_gap_in_summer() -> None:
    spread = spread_over([Picking(330, 45, 2)])
    assert [month for month, trees in spread.months.items() if trees] == [1, 2, 11, 12]
    assert spread.gaps == ()


def test_months_stand_in_the_order_of_the_season() -> None:
    assert next(iter(spread_over([]).months)) == 1
    assert next(iter(spread_over([], southern=True).months)) == 7


def test_the_last_week_takes_the_day_that_is_left() -> None:
    assert spread_over([Picking(365, 365, 1)]).weeks[-1].trees == 1


@pytest.mark.parametrize(("from_day", "to_day", "trees"), [(0, 10, 1), (1, 366, 1), (1, 10, -1)])
def test_days_outside_the_season_and_fewer_trees_than_none_are_refused(from_day: int, to_day: int, trees: int) -> None:
    with pytest.raises(ValueError):
        Picking(from_day, to_day, trees)
