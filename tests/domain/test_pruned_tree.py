"""A tree that cannot be is refused at the field that is most likely wrong."""

from __future__ import annotations

from typing import Any

import pytest

from service.domain.errors import NotUnderstood
from service.domain.pruned_tree import GraftedVariety, PrunedTree, SharedHole


@pytest.mark.parametrize(
    ("told", "pointer"),
    [
        ({"just_planted": True, "age_years": 4}, "/just_planted"),
        ({"just_planted": True, "bears": True}, "/bears"),
        ({"shoot_length_in": 60, "height_ft": 4}, "/shoot_length_in"),
        ({"years_unpruned": 9, "age_years": 5}, "/years_unpruned"),
        ({"height_ft": float("nan")}, "/height_ft"),
        ({"height_ft": 3, "varieties": (GraftedVariety("Gala", shoot_length_in=48),)}, "/varieties/0/shoot_length_in"),
    ],
)
def test_what_contradicts_itself_is_refused(told: dict[str, Any], pointer: str) -> None:
    with pytest.raises(NotUnderstood) as caught:
        PrunedTree("peach", **told)
    assert [at for at, _ in caught.value.faults] == [pointer]


def test_a_tree_of_which_nothing_but_the_crop_is_known_is_a_tree() -> None:
    assert PrunedTree("peach").signs is None


def test_shoots_as_long_as_the_tree_is_high_are_possible() -> None:
    assert PrunedTree("fig", height_ft=4, shoot_length_in=48).shoot_length_in == 48


def test_more_heights_than_trees_in_the_hole_are_refused() -> None:
    with pytest.raises(NotUnderstood, match="3 heights are given for 2 trees"):
        SharedHole(2, heights_ft=(4, 5, 6))
