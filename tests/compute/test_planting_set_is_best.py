"""The planting set against a search through every possible set, in small random gardens; all figures are invented."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.planting_set import Limb, Order, Plot, StandingPartner, Tree, choose
from tests.compute.made_up_garden import WEIGHTS

NAMES = ("a", "b", "c", "d", "e", "f")


@st.composite
def gardens(draw: st.DrawFn) -> Order:
    """Small orders: up to six trees, some of which need partners, on a plot that may be too small."""
    names = NAMES[: draw(st.integers(1, len(NAMES)))]
    cultivars = st.sets(st.sampled_from((*NAMES, "standing")), max_size=3).map(frozenset)
    limbs = {name: Limb(name, draw(st.integers(0, 2)), draw(cultivars), draw(cultivars)) for name in names}
    trees = tuple(
        Tree(
            id=name,
            crop=draw(st.sampled_from(("plum", "apple"))),
            limbs=(limbs[name], limbs[draw(st.sampled_from(names))])[: draw(st.integers(1, 2))],
            fit=float(draw(st.integers(20, 100))),
            months=draw(st.sets(st.integers(6, 9), max_size=2).map(frozenset)),
            spacing_ft=float(draw(st.sampled_from((6, 10, 15)))),
        )
        for name in names
    )
    plots = st.builds(Plot, st.integers(5, 32), st.integers(5, 32), edge_share=st.sampled_from((0.0, 0.25, 0.5)))
    return Order(
        trees=trees,
        max_trees=draw(st.integers(1, 5)),
        weights=WEIGHTS,
        plot=draw(st.none() | plots),
        standing=draw(st.sampled_from(((), (StandingPartner("standing"),), (StandingPartner("standing", True),)))),
        wished_months=draw(st.sampled_from((frozenset(), frozenset({7, 8})))),
        max_of_crop=draw(st.sampled_from((None, 2))),
    )


def every_set(placed: Order) -> list[tuple[float, tuple[str, ...]]]:
    """The points of every allowed set of trees, best first."""
    found = []
    for size in range(1, placed.max_trees + 1):
        for trees in combinations(placed.plantable, size):
            if allowed(placed, trees) and goes_in(placed, trees):
                found.append((worth(placed, trees), tuple(one.id for one in trees)))
    return sorted(found, key=lambda entry: -entry[0])


def growing(placed: Order, trees: tuple[Tree, ...]) -> dict[str, bool]:
    """The cultivars that would grow here, and whether each crops alone."""
    planted = {limb.cultivar: limb.partners_needed == 0 for one in trees for limb in one.limbs}
    return planted | {one.cultivar: one.crops_alone for one in placed.standing}


def served(limb: Limb, partners: frozenset[str], here: dict[str, bool]) -> float:
    """The share of a limb's need that some partners meet."""
    others = partners - {limb.cultivar}
    return sum(limb.partners_needed if here[one] else 1 for one in here if one in others) / limb.partners_needed


def allowed(placed: Order, trees: tuple[Tree, ...]) -> bool:
    """Whether each tree has its partners and no crop is there too often."""
    here = growing(placed, trees)
    crops = [one.crop for one in trees]
    if placed.max_of_crop is not None and any(crops.count(crop) > placed.max_of_crop for crop in crops):
        return False
    needy = (limb for one in trees for limb in one.limbs if limb.partners_needed)
    return all(served(limb, limb.proven | limb.likely, here) >= 1 for limb in needy)


def worth(placed: Order, trees: tuple[Tree, ...]) -> float:
    """The points of a set."""
    here, weights = growing(placed, trees), placed.weights
    months = {month for one in trees for month in one.months} & placed.open_months
    needy = [limb for one in trees for limb in one.limbs if limb.partners_needed]
    unproven = sum(max(0.0, 1 - served(limb, limb.proven, here)) for limb in needy)
    fits = sum(one.fit - weights.worth_fit for one in trees)
    crops = len({one.crop for one in trees})
    return fits + weights.month * len(months) + weights.crop * crops - weights.unproven_partner * unproven


def goes_in(placed: Order, trees: tuple[Tree, ...]) -> bool:
    """Whether the trees can be set out in rows, tried out with every tree in every row."""
    if placed.plot is None:
        return True
    overhang = (1 - 2 * placed.plot.edge_share) * min(one.spacing_ft for one in placed.plantable)  # type: ignore[type-var]
    sides = (placed.plot.width_ft + overhang, placed.plot.depth_ft + overhang)  # type: ignore[operator]
    spacings = [float(one.spacing_ft or 0) for one in trees]
    return any(_rows_hold(spacings, *way) for way in (sides, sides[::-1]))


def _rows_hold(spacings: list[float], along: float, across: float) -> bool:
    for rows in product(range(len(spacings)), repeat=len(spacings)):
        grouped = [[s for s, row in zip(spacings, rows, strict=True) if row == one] for one in set(rows)]
        if sum(map(max, grouped)) <= across + 1e-9 and all(sum(row) <= along + 1e-9 for row in grouped):
            return True
    return False


@given(gardens())
def test_no_other_set_has_more_points_than_the_one_chosen(placed: Order) -> None:
    outcome, every = choose(placed), every_set(placed)
    worthwhile = [(points, names) for points, names in every]
    if outcome.best is None:
        assert not worthwhile or worthwhile[0][0] <= 1e-6
        return
    assert outcome.best.points == pytest.approx(worthwhile[0][0])
    assert (outcome.best.points, outcome.best.trees) in [(pytest.approx(points), names) for points, names in every]


@given(gardens())
def test_the_second_set_is_the_best_of_the_others(placed: Order) -> None:
    outcome = choose(placed)
    if outcome.best is None:
        return
    others = [points for points, names in every_set(placed) if names != outcome.best.trees]
    if outcome.second is None:
        assert not others or others[0] <= 1e-6
    else:
        assert outcome.second.points == pytest.approx(others[0])


@given(gardens())
def test_more_room_never_makes_the_best_set_worse(placed: Order) -> None:
    if placed.plot is None:
        return
    wider = Plot(placed.plot.width_ft + 7, placed.plot.depth_ft, edge_share=placed.plot.edge_share)
    larger = Order(**({name: getattr(placed, name) for name in Order.__slots__} | {"plot": wider}))
    before, after = choose(placed).best, choose(larger).best
    assert (before.points if before else 0.0) <= (after.points if after else 0.0) + 1e-6


@given(gardens())
def test_the_order_in_which_trees_are_offered_changes_nothing(placed: Order) -> None:
    turned = Order(**({name: getattr(placed, name) for name in Order.__slots__} | {"trees": placed.trees[::-1]}))
    assert choose(placed) == choose(turned)


def test_threads_do_not_disturb_one_another() -> None:
    july = frozenset({7})
    grove = [Tree(name, "plum", (Limb(name, 0),), 60.0 + place, july, 12.0) for place, name in enumerate(NAMES)]
    orders = [
        Order(trees=tuple(grove[start:]), max_trees=3, weights=WEIGHTS, plot=Plot(30, 20 + start, edge_share=0.5))
        for start in range(5)
    ]
    alone = [choose(placed) for placed in orders]
    with ThreadPoolExecutor(8) as pool:
        assert list(pool.map(choose, orders * 8)) == alone * 8
