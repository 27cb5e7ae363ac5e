"""The smallest addition against a search through every set of candidates; who serves whom is made up."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.pollen_cover import Cover, smallest_cover

Drawn = tuple[list[list[int]], list[int], list[int]]


@st.composite
def tasks(draw: st.DrawFn) -> Drawn:
    """Up to five trees that lack up to three partners, and up to seven candidates."""
    lacking, candidates = draw(st.integers(0, 5)), draw(st.integers(0, 7))
    counts = st.lists(st.sampled_from((0, 0, 1, 1, 2, 3)), min_size=candidates, max_size=candidates)
    serves = draw(st.lists(counts, min_size=lacking, max_size=lacking))
    needed = draw(st.lists(st.integers(1, 3), min_size=lacking, max_size=lacking))
    fits = draw(st.lists(st.sampled_from((0, 40, 41, 70, 100)), min_size=candidates, max_size=candidates))
    return serves, needed, fits


def solved(drawn: Drawn) -> Cover:
    serves, needed, fits = drawn
    return smallest_cover(np.array(serves, dtype=int).reshape(len(needed), len(fits)), needed, fits)


def served_by(drawn: Drawn, added: tuple[int, ...]) -> tuple[int, ...]:
    serves, needed, _ = drawn
    return tuple(one for one, row in enumerate(serves) if sum(row[each] for each in added) >= needed[one])


@given(tasks())
def test_no_smaller_or_fitter_addition_serves_as_many(drawn: Drawn) -> None:
    cover, (_, needed, fits) = solved(drawn), drawn
    every = [added for size in range(len(fits) + 1) for added in combinations(range(len(fits)), size)]
    most = max(len(served_by(drawn, added)) for added in every)
    best = min(
        (len(added), -sum(fits[one] for one in added), sum(added))
        for added in every
        if len(served_by(drawn, added)) == most
    )
    assert (len(cover.added), -sum(fits[one] for one in cover.added), sum(cover.added)) == best
    assert served_by(drawn, cover.added) == cover.served
    assert sorted((*cover.served, *cover.unserved)) == list(range(len(needed)))


@given(tasks())
def test_what_is_added_stands_with_the_fittest_first(drawn: Drawn) -> None:
    fits = drawn[2]
    added = solved(drawn).added
    assert list(added) == sorted(added, key=lambda one: (-fits[one], one))


@given(tasks(), st.randoms())
def test_the_order_of_the_lacking_changes_nothing(drawn: Drawn, random: object) -> None:
    serves, needed, fits = drawn
    order = list(range(len(needed)))
    random.shuffle(order)  # type: ignore[attr-defined]
    turned = [serves[one] for one in order], [needed[one] for one in order], fits
    assert solved(turned).added == solved(drawn).added


def test_one_candidate_for_all_is_better_than_two_fitter_ones() -> None:
    serves = np.array([[1, 0, 1], [0, 1, 1]], dtype=bool)
    assert smallest_cover(serves, [1, 1], [90, 90, 20]).added == (2,)


def test_of_two_equal_candidates_the_earlier_is_added() -> None:
    assert smallest_cover(np.array([[1, 1]]), [1], [60, 60]).added == (0,)


def test_a_tree_that_nobody_serves_does_not_hold_up_the_rest() -> None:
    cover = smallest_cover(np.array([[0, 0], [1, 0]]), [1, 1], [60, 60])
    assert cover == Cover(added=(0,), served=(1,), unserved=(0,))


def test_nothing_lacking_asks_for_nothing() -> None:
    assert smallest_cover(np.zeros((0, 3), dtype=int), [], [1, 2, 3]) == Cover((), (), ())


def test_no_candidates_serve_nobody() -> None:
    assert smallest_cover(np.zeros((2, 0), dtype=int), [1, 2], []) == Cover((), (), (0, 1))


@pytest.mark.parametrize(("counts", "needed"), [([[-1]], [1]), ([[1]], [0])])
def test_counts_below_nothing_are_refused(counts: list[list[int]], needed: list[int]) -> None:
    with pytest.raises(ValueError):
        smallest_cover(np.array(counts), needed, [50])
