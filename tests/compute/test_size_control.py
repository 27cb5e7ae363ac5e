"""Mature height on a root, with made-up crops and roots; published sizes stand in tests/published."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.size_control import height_over_wanted, mature_height, roots_within, share_of
from service.domain.provenance import Span, Stated
from service.domain.rootstock import Rootstock
from tests.compute.made_up_orchard import crop, said


def root(name: str, **known: Any) -> Rootstock:
    """A made-up root for the made-up crop."""
    return Rootstock(id=name, name=name, crops=("apple",), **known)


APPLE = crop("apple", "Malus exempli", height_ft=Stated(Span(20, 30), ("crop book",)))
UNKNOWN = crop("apple", "Malus exempli")


def test_the_height_stated_for_the_root_comes_first() -> None:
    height = mature_height(APPLE, root("r", height_ft=said(Span(8, 10)), size_percent=said(Span(30, 40))))
    assert height is not None
    assert (height.span_ft, height.basis, height.sources) == (Span(8, 10), "rootstock", ("made-up",))


def test_failing_that_the_size_is_taken_of_the_height_of_the_crop() -> None:
    height = mature_height(APPLE, root("r", size_percent=said(Span(50, 60), from_memory=True)))
    assert height is not None
    assert (height.span_ft, height.basis) == (Span(10, 18), "share_of_seedling")
    assert height.sources == ("crop book", "made-up")
    assert height.from_memory


@pytest.mark.parametrize("bare", [None, root("r")])
def test_failing_that_the_height_of_the_crop_stands_in(bare: Rootstock | None) -> None:
    height = mature_height(APPLE, bare)
    assert height is not None
    assert (height.span_ft, height.basis) == (Span(20, 30), "crop")


def test_a_height_that_nobody_states_stays_unknown() -> None:
    assert mature_height(UNKNOWN, root("r", size_percent=said(Span(50, 60)))) is None
    assert height_over_wanted(None, 10) is None


def test_an_open_end_stays_open() -> None:
    assert share_of(Span(20, None), Span(50, 60)) == Span(10, None)
    height = mature_height(APPLE, root("r", height_ft=said(Span(None, 12))))
    assert height_over_wanted(height, 10) is None


def test_a_height_is_compared_by_its_lower_end() -> None:
    height = mature_height(APPLE, root("r", height_ft=said(Span(12, 16))))
    assert height_over_wanted(height, 10) == 1.2
    assert height_over_wanted(height, None) is None


def test_roots_that_keep_a_tree_low_enough_come_smallest_first() -> None:
    roots = [
        root("middling", height_ft=said(Span(12, 14))),
        root("tiny", height_ft=said(Span(4, 6))),
        root("small", height_ft=said(Span(8, 10))),
        root("unknown"),
        Rootstock(id="of another crop", name="x", crops=("pear",), height_ft=said(Span(5, 6))),
    ]
    assert [one.id for one in roots_within(UNKNOWN, roots, 10)] == ["tiny", "small"]


@given(st.floats(1, 60), st.floats(0, 60), st.floats(5, 150), st.floats(0, 50))
def test_a_larger_root_never_makes_a_smaller_tree(low: float, more: float, percent: float, extra: float) -> None:
    standard = Span(low, low + more)
    small = share_of(standard, Span(percent, percent))
    large = share_of(standard, Span(percent + extra, percent + extra))
    assert small.low is not None
    assert large.low is not None
    assert small.low <= large.low
