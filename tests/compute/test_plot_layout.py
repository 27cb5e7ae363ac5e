"""Layouts against the bounds they keep, and against every placing on a lattice for few trees; all sizes are made up."""

from __future__ import annotations

import math
from itertools import combinations
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.plot_layout import Circle, Layout, ToPlace, lay_out
from service.compute.spacing import fits

ROUNDING = 1e-6
SPACINGS = (6.0, 8.0, 10.0, 12.5, 15.0)
EDGES = (0.0, 0.25, 0.5)
SHARES = st.sampled_from(EDGES)
GARDENS = 200
Plot = tuple[float, float]
Drawn = tuple[list[float], Plot, float, tuple[Circle, ...]]


@st.composite
def gardens(draw: st.DrawFn, most: int = 9, side: int = 40) -> Drawn:
    """Some trees on a plot that may be too small, where up to two others stand."""
    spacings = draw(st.lists(st.sampled_from(SPACINGS), max_size=most))
    plot = float(draw(st.integers(6, side))), float(draw(st.integers(6, side)))
    places = st.builds(Circle, st.floats(0, plot[0]), st.floats(0, plot[1]), st.sampled_from((8.0, 12.0)))
    return spacings, plot, draw(SHARES), tuple(draw(st.lists(places, max_size=2)))


def laid_out(drawn: Drawn) -> Layout:
    spacings, plot, share, fixed = drawn
    return lay_out([ToPlace(spacing, spacing) for spacing in spacings], plot, edge_share=share, fixed=fixed)


def between(one: object, other: object) -> float:
    return math.hypot(one.x_ft - other.x_ft, one.y_ft - other.y_ft)  # type: ignore[attr-defined]


@given(gardens())
def test_every_tree_keeps_its_distance_to_the_edges_and_to_the_others(drawn: Drawn) -> None:
    _, (width, depth), share, fixed = drawn
    placed = laid_out(drawn).placed
    for spot in placed:
        margin = share * spot.spacing_ft - ROUNDING
        assert margin <= spot.x_ft <= width - margin
        assert margin <= spot.y_ft <= depth - margin
        assert all(between(spot, one) >= (spot.spacing_ft + one.spacing_ft) / 2 - ROUNDING for one in fixed)
    for one, other in combinations(placed, 2):
        assert between(one, other) >= (one.spacing_ft + other.spacing_ft) / 2 - ROUNDING


@given(gardens())
def test_each_tree_is_placed_once_or_left_over_and_the_widest_are(drawn: Drawn) -> None:
    spacings, layout = drawn[0], laid_out(drawn)
    placed = [spot.tree for spot in layout.placed]
    assert placed == sorted(placed)
    assert sorted((*placed, *layout.left_over)) == list(range(len(spacings)))
    widest = max((spacings[one] for one in placed), default=0)
    assert all(spacings[one] >= widest for one in layout.left_over)
    assert [spot.spacing_ft for spot in layout.placed] == [spacings[one] for one in placed]


@given(gardens())
def test_the_nearest_trunk_is_the_nearest_of_all(drawn: Drawn) -> None:
    layout, fixed = laid_out(drawn), drawn[3]
    for spot in layout.placed:
        others = [between(spot, one) for one in (*layout.placed, *fixed) if one is not spot]
        if others:
            assert layout.nearest_ft[spot.tree] == pytest.approx(min(others))
        else:
            assert spot.tree not in layout.nearest_ft


@given(gardens())
def test_the_same_trees_get_the_same_places(drawn: Drawn) -> None:
    assert laid_out(drawn) == laid_out(drawn)


def lattice_holds(drawn: Drawn, count: int) -> bool:
    """Whether the smallest trees, so many of them, all go in with their trunks on whole feet."""
    spacings, (width, depth), share, fixed = drawn
    trees = sorted(sorted(spacings)[:count], reverse=True)
    points = [Circle(x, y, 0) for x in range(int(width) + 1) for y in range(int(depth) + 1)]

    def open_to(spacing: float) -> list[Circle]:
        margin = share * spacing
        return [
            Circle(at.x_ft, at.y_ft, spacing)
            for at in points
            if margin <= at.x_ft <= width - margin and margin <= at.y_ft <= depth - margin
            and all(between(at, one) >= (spacing + one.spacing_ft) / 2 for one in fixed)
        ]  # fmt: skip

    places = {spacing: open_to(spacing) for spacing in set(trees)}

    def goes_on(there: tuple[Circle, ...]) -> bool:
        if len(there) == len(trees):
            return True
        clear = (
            at
            for at in places[trees[len(there)]]
            if all(between(at, one) >= (at.spacing_ft + one.spacing_ft) / 2 for one in there)
        )
        return any(goes_on((*there, at)) for at in clear)

    return goes_on(())


def test_few_trees_are_placed_in_all_but_one_garden_of_a_hundred_where_whole_feet_place_them() -> None:
    """Trees are laid out by rows, corners and pushing, which is no search of everything: 2 of 1,495 failed."""
    draws, missed = Random(2026), 0
    for _ in range(GARDENS):
        spacings = draws.choices(SPACINGS, k=draws.randint(0, 4))
        drawn: Drawn = (spacings, (float(draws.randint(6, 18)), float(draws.randint(6, 18))), draws.choice(EDGES), ())
        layout = laid_out(drawn)
        missed += bool(layout.left_over) and lattice_holds(drawn, len(layout.placed) + 1)
    assert missed <= GARDENS // 100


@given(st.sampled_from(SPACINGS), st.integers(10, 70), st.integers(10, 70), SHARES)
def test_as_many_trees_of_one_kind_go_in_as_rows_hold(spacing: float, width: int, depth: int, share: float) -> None:
    count = fits(width, depth, spacing_ft=spacing, edge_share=share)
    if count <= 40:
        layout = lay_out([ToPlace(spacing, spacing)] * count, (width, depth), edge_share=share)
        assert layout.left_over == ()


def test_trees_with_room_stand_in_rows_from_the_front_left() -> None:
    layout = lay_out([ToPlace(10, 10)] * 5, (30, 100), edge_share=0.5)
    assert [(spot.x_ft, spot.y_ft) for spot in layout.placed] == [(5, 5), (15, 5), (25, 5), (5, 15), (15, 15)]


def test_a_standing_tree_is_gone_around() -> None:
    layout = lay_out([ToPlace(10, 10)] * 2, (30, 10), edge_share=0.5, fixed=[Circle(15, 5, 10)])
    assert sorted(round(spot.x_ft) for spot in layout.placed) == [5, 25]
    assert layout.nearest_ft == {0: pytest.approx(10), 1: pytest.approx(10)}


def test_trees_are_pushed_together_where_rows_leave_one_over() -> None:
    spacings = [6.0, 10.0, 10.0, 10.0, 10.0]
    layout = lay_out([ToPlace(one, one) for one in spacings], (22, 22), edge_share=0.5)
    assert layout.left_over == ()
    assert len({round(spot.y_ft) for spot in layout.placed}) > 2


def test_a_tree_wider_than_the_plot_is_left_over_and_the_rest_stand() -> None:
    layout = lay_out([ToPlace(40, 40), ToPlace(8, 8)], (20, 20), edge_share=0.5)
    assert (layout.left_over, [spot.tree for spot in layout.placed], layout.nearest_ft) == ((0,), [1], {})


def test_no_trees_need_no_room() -> None:
    assert lay_out([], (10, 10), edge_share=0.5) == Layout((), (), {})


@pytest.mark.parametrize(("spread", "spacing"), [(10, 0), (-1, 10)])
def test_a_tree_without_room_is_refused(spread: float, spacing: float) -> None:
    with pytest.raises(ValueError):
        ToPlace(spread, spacing)
