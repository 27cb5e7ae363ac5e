"""A tree comes down step by step and ends at the wanted height."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.renovation import renovation_steps
from service.compute.wires import wire_heights_in

HEIGHT = st.floats(2, 100)


@given(HEIGHT, HEIGHT, st.integers(1, 6))
def test_each_year_ends_lower_and_the_last_at_the_wanted_height(height: float, wanted: float, years: int) -> None:
    steps = renovation_steps(height, wanted, years=years)
    if height <= wanted:
        assert steps == ()
        return
    heights = [height, *(step.height_ft for step in steps)]
    assert all(later <= earlier + 0.05 for earlier, later in pairwise(heights))
    assert steps[-1].height_ft == pytest.approx(wanted, abs=0.051)
    assert [step.year for step in steps] == list(range(1, years + 1))


def test_one_year_is_the_last() -> None:
    assert [step.place for step in renovation_steps(14, 12, years=1)] == ["last"]
    assert [step.place for step in renovation_steps(20, 10, years=4)] == ["first", "middle", "middle", "last"]


@given(st.floats(6, 40), st.floats(6, 40), st.integers(1, 8), st.floats(1, 20))
def test_no_wire_but_the_lowest_stands_above_the_wanted_height(
    first: float, gap: float, most: int, under: float
) -> None:
    heights = wire_heights_in(first, gap, most=most, under_ft=under)
    assert heights[0] == first
    assert all(height <= under * 12 for height in heights[1:])
    assert heights == wire_heights_in(first, gap, most=most)[: len(heights)]
