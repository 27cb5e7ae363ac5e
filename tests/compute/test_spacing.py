"""Distances between trees and how many a plot holds, with made-up crops, roots and plots."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.spacing import (
    SizeLimits,
    fits,
    fits_square,
    fits_staggered,
    size_class,
    spacing_for,
    trees_along,
)
from service.domain.provenance import Span
from service.domain.rootstock import Rootstock
from tests.compute.made_up_orchard import crop, said

LIMITS = SizeLimits(dwarf_below_percent=60, semi_dwarf_below_percent=90)
APPLE = crop("apple", spacing_ft={"standard": said(Span(20, 30)), "dwarf": said(Span(8, 12))})


def root(**known: Any) -> Rootstock:
    """A made-up root."""
    return Rootstock(id="r", name="r", crops=("apple",), **known)


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        (Span(30, 40), "dwarf"),
        (Span(55, 65), "semi_dwarf"),
        (Span(60, 60), "semi_dwarf"),
        (Span(85, 95), "standard"),
        (Span(100, 100), "standard"),
    ],
)
def test_a_root_belongs_to_the_class_of_its_middle_size(percent: Span, expected: str) -> None:
    assert size_class(root(size_percent=said(percent)), LIMITS) == expected


def test_the_distance_stated_for_the_root_comes_first() -> None:
    spacing = spacing_for(APPLE, root(spacing_ft=said(Span(5, 5)), size_percent=said(Span(30, 40))), LIMITS)
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (5, "rootstock")


def test_failing_that_the_crop_has_one_for_the_size_class() -> None:
    spacing = spacing_for(APPLE, root(size_percent=said(Span(30, 40))), LIMITS)
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (10, "size_class")


def test_failing_that_the_distance_of_standard_trees_is_scaled_by_the_size_of_the_root() -> None:
    spacing = spacing_for(APPLE, root(size_percent=said(Span(60, 80))), LIMITS)
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (17.5, "share_of_standard")


def test_a_root_of_unknown_size_keeps_the_distance_of_standard_trees() -> None:
    spacing = spacing_for(APPLE, root(), LIMITS)
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (25, "crop")
    assert spacing_for(crop("fig"), root(size_percent=said(Span(60, 80))), LIMITS) is None


def test_without_a_root_the_standard_distance_of_the_crop_stands_in() -> None:
    spacing = spacing_for(APPLE, None, LIMITS)
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (25, "crop")
    assert spacing_for(crop("fig"), None, LIMITS) is None


def test_a_tree_keeps_its_share_to_both_edges() -> None:
    assert trees_along(12, 12, 0.5) == 1
    assert trees_along(11.9, 12, 0.5) == 0
    assert trees_along(23.9, 12, 0.5) == 1
    assert trees_along(24, 12, 0.25) == 2


def test_a_plot_that_one_side_is_too_narrow_for_holds_nothing() -> None:
    assert fits_square(100, 9, spacing_ft=10, edge_share=0.5) == 0
    assert fits_staggered(100, 9, spacing_ft=10, edge_share=0.5) == 0


def test_staggered_rows_pay_on_deep_plots() -> None:
    assert fits_square(105, 100, spacing_ft=10, edge_share=0.5) == 100
    assert fits_staggered(105, 100, spacing_ft=10, edge_share=0.5) == 110
    assert fits(105, 100, spacing_ft=10, edge_share=0.5) == 110


LENGTHS = st.floats(1, 300)
SPACINGS = st.floats(2, 40)
SHARES = st.sampled_from((0.0, 0.25, 0.5))


@given(LENGTHS, LENGTHS, SPACINGS, SHARES)
def test_a_plot_may_be_turned(width: float, depth: float, spacing: float, share: float) -> None:
    one_way = fits(width, depth, spacing_ft=spacing, edge_share=share)
    assert one_way == fits(depth, width, spacing_ft=spacing, edge_share=share)


@given(LENGTHS, LENGTHS, SPACINGS, SHARES, st.floats(0, 100))
def test_more_room_never_holds_fewer_trees(
    width: float, depth: float, spacing: float, share: float, more: float
) -> None:
    before = fits(width, depth, spacing_ft=spacing, edge_share=share)
    assert before <= fits(width + more, depth, spacing_ft=spacing, edge_share=share)


@given(LENGTHS, LENGTHS, SPACINGS, st.floats(0, 20))
def test_wider_spacing_never_holds_more_trees(width: float, depth: float, spacing: float, more: float) -> None:
    before = fits(width, depth, spacing_ft=spacing, edge_share=0.5)
    assert before >= fits(width, depth, spacing_ft=spacing + more, edge_share=0.5)


@given(LENGTHS, SPACINGS)
def test_trees_in_a_line_take_no_more_than_its_length(length: float, spacing: float) -> None:
    trees = trees_along(length, spacing, 0.5)
    assert trees * spacing <= length + 1e-6
    assert (trees + 1) * spacing > length - 1e-6
