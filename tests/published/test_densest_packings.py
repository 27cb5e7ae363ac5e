"""Layouts of equal trees against the densest packings of circles in a square that are known.

The sides of the smallest squares that hold so many unit circles are those collected by Erich Friedman, "Circles in
Squares" (Packing Center), most of them proved; a tree with half its spacing to the edge is such a circle.
"""

from __future__ import annotations

from math import sqrt

import pytest

from service.compute.plot_layout import ToPlace, lay_out

SIDES = {
    2: 2 + sqrt(2), 3: 2 + 1 / sqrt(2) + sqrt(6) / 2, 4: 4, 5: 2 + 2 * sqrt(2), 6: 2 + 12 / sqrt(13), 7: 4 + sqrt(3),
    8: 2 + sqrt(2) + sqrt(6), 9: 6, 10: 6.7475, 11: 7.0225, 12: 2 + 15 * sqrt(2 / 17), 13: 7.4635, 14: 6 + sqrt(3),
    15: 4 + sqrt(2) + sqrt(6), 16: 8, 17: 8.5325, 18: 2 + 24 / sqrt(13), 19: 8.9075, 20: 130 / 17 + 16 / 17 * sqrt(2),
}  # fmt: skip
RADIUS_FT = 5.0
WITHIN = 1.05


def placed(count: int, side_ft: float) -> int:
    trees = [ToPlace(2 * RADIUS_FT, 2 * RADIUS_FT)] * count
    return len(lay_out(trees, (side_ft, side_ft), edge_share=0.5).placed)


@pytest.mark.parametrize("count", SIDES)
def test_all_trees_go_in_on_a_side_a_twentieth_longer_than_the_shortest(count: int) -> None:
    assert placed(count, SIDES[count] * RADIUS_FT * WITHIN) == count


@pytest.mark.parametrize("count", SIDES)
def test_no_more_trees_go_in_than_can(count: int) -> None:
    assert placed(count, SIDES[count] * RADIUS_FT * 0.999) < count


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 8, 9, 15, 16])
def test_the_packings_that_are_regular_are_found(count: int) -> None:
    assert placed(count, SIDES[count] * RADIUS_FT * 1.0001) == count
