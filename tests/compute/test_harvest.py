"""Harvest windows, with made-up dates; days count from 1 January in the north and 1 July in the south."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.harvest import (
    Window,
    days_before_frost,
    harvest_window,
    in_wished_months,
    months_covered,
    shifted,
)
from service.domain.cultivar import Cultivar, HarvestTime, Offset
from tests.compute.made_up_orchard import crop, said, tree

MID_AUGUST = HarvestTime(223, 232, "Minnesota", "mid-August (Minnesota)")
PLAIN = crop("cherry")
BY_CLASS = crop("cherry", harvest_by_season={"late": said(HarvestTime(244, 273, None, "class"), "class table")})


def known(*cultivars: Cultivar) -> dict[str, Cultivar]:
    """Cultivars as offsets name them."""
    return {cultivar.denomination: cultivar for cultivar in cultivars}


def window(from_day: int, to_day: int) -> Window:
    """A bare window."""
    return Window(from_day, to_day, "cultivar_dates", None, (), False)


def test_dates_of_the_cultivar_come_first() -> None:
    dated = tree("a", harvest=MID_AUGUST, ripening="late", ripening_offset=Offset(5, "B"))
    told = harvest_window(dated, BY_CLASS, known(tree("b", harvest=HarvestTime(1, 2, None, ""))))
    assert told is not None
    assert (told.from_day, told.to_day, told.basis, told.place) == (223, 232, "cultivar_dates", "Minnesota")


def test_failing_that_days_from_a_dated_cultivar_count() -> None:
    told = harvest_window(tree("a", ripening_offset=Offset(-10, "B")), BY_CLASS, known(tree("b", harvest=MID_AUGUST)))
    assert told is not None
    assert (told.from_day, told.to_day, told.basis) == (213, 222, "offset")


def test_offsets_are_followed_from_cultivar_to_cultivar() -> None:
    reference = tree("b", ripening_offset=Offset(7, "C"))
    told = harvest_window(
        tree("a", ripening_offset=Offset(3, "B")), PLAIN, known(reference, tree("c", harvest=MID_AUGUST))
    )
    assert told is not None
    assert told.from_day == 233


def test_a_range_of_days_widens_the_window() -> None:
    ranged = tree("a", ripening_offset=Offset(20, "B", to_days=28))
    told = harvest_window(ranged, PLAIN, known(tree("b", harvest=MID_AUGUST)))
    assert told is not None
    assert (told.from_day, told.to_day) == (243, 260)


def test_offsets_that_go_in_a_circle_or_nowhere_tell_nothing() -> None:
    one, other = tree("a", ripening_offset=Offset(3, "B")), tree("b", ripening_offset=Offset(3, "A"))
    assert harvest_window(one, PLAIN, known(one, other)) is None
    assert harvest_window(one, PLAIN, {}) is None


def test_failing_that_the_ripening_class_of_the_crop_counts() -> None:
    told = harvest_window(tree("a", ripening="late"), BY_CLASS, {})
    assert told is not None
    assert (told.from_day, told.basis, told.sources) == (244, "ripening_class", ("class table", "made-up"))


@pytest.mark.parametrize("bare", [tree("a"), tree("a", ripening="early")])
def test_a_harvest_that_nobody_states_stays_unknown(bare: Cultivar) -> None:
    assert harvest_window(bare, BY_CLASS, {}) is None


def test_half_days_fall_on_the_later_day() -> None:
    assert shifted(window(200, 210), -1.5).from_day == 199
    assert shifted(window(200, 210), 0.5).from_day == 201


def test_a_window_may_run_over_the_end_of_the_year() -> None:
    late = shifted(window(350, 360), 10)
    assert (late.from_day, late.to_day) == (360, 5)
    assert months_covered(late) == (12, 1)
    assert months_covered(late, southern=True) == (6, 7)


def test_northern_august_is_picked_in_february_in_the_south() -> None:
    assert months_covered(window(213, 243)) == (8,)
    assert months_covered(window(216, 240), southern=True) == (2,)


def test_a_wish_is_met_by_any_day_in_its_month() -> None:
    assert in_wished_months(window(200, 215), [8]) is True
    assert in_wished_months(window(200, 215), [9]) is False
    assert in_wished_months(window(200, 215), [1], southern=True) is True
    assert in_wished_months(None, [8]) is None
    assert in_wished_months(window(200, 215), []) is None


@pytest.mark.parametrize(("frost", "days"), [(300, 10), (290, 0), (280, -10), (None, None)])
def test_days_are_counted_from_the_last_picking_to_the_frost(frost: int | None, days: int | None) -> None:
    assert days_before_frost(window(280, 290), frost) == days


@given(st.integers(1, 365), st.integers(0, 60), st.integers(-400, 400))
def test_moving_a_window_keeps_its_length(start: int, length: int, days: int) -> None:
    before = shifted(window(start, start), 0)
    whole = Window(before.from_day, (start + length - 1) % 365 + 1, "cultivar_dates", None, (), False)
    assert len(shifted(whole, days).days) == len(whole.days) == length + 1


@given(st.integers(1, 365), st.integers(0, 60))
def test_both_hemispheres_pick_over_the_same_number_of_days(start: int, length: int) -> None:
    whole = Window(start, (start + length - 1) % 365 + 1, "cultivar_dates", None, (), False)
    assert abs(len(months_covered(whole)) - len(months_covered(whole, southern=True))) <= 1
