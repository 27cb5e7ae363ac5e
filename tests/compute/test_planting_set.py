"""The planting set: hand-made gardens, and small random ones against a search through every possible set.

All fits, spacings and weights here are invented.
"""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.planting_set import Limb, Order, Plot, StandingPartner, Tree, Weights, choose, shortlist

WEIGHTS = Weights(worth_fit=40, month=30, crop=15, unproven_partner=10)
ROOMY = Plot(200, 200, edge_share=0.5)


def tree(name: str, **given_: object) -> Tree:
    """A self-fertile tree picked in July, unless told otherwise."""
    limbs = given_.pop("limbs", (Limb(name, 0),))
    known = {"crop": "plum", "limbs": limbs, "fit": 70.0, "months": frozenset({7}), "spacing_ft": 12.0}
    return Tree(id=name, **(known | given_))  # type: ignore[arg-type]


def shy(name: str, *partners: str, needs: int = 1, likely: tuple[str, ...] = (), **given_: object) -> Tree:
    """A tree that needs partners."""
    limb = Limb(name, needs, proven=frozenset(partners), likely=frozenset(likely))
    return tree(name, limbs=(limb,), **given_)


def order(*trees: Tree, max_trees: int = 4, **given_: object) -> Order:
    """An order with the weights of this file."""
    return Order(trees=trees, max_trees=max_trees, weights=WEIGHTS, **given_)  # type: ignore[arg-type]


def best(placed: Order) -> tuple[str, ...]:
    """The trees of the best set, empty where there is none."""
    chosen = choose(placed).best
    return chosen.trees if chosen else ()


def test_nothing_on_offer_gives_no_set() -> None:
    outcome = choose(order())
    assert (outcome.best, outcome.second, outcome.given_up) == (None, None, None)


def test_a_plot_smaller_than_every_spacing_holds_nothing() -> None:
    assert best(order(tree("a"), tree("b"), plot=Plot(10, 50, edge_share=0.5))) == ()


def test_a_tree_of_unknown_spacing_is_not_put_on_a_known_plot() -> None:
    placed = (tree("a"), tree("b", spacing_ft=None, fit=99.0))
    assert best(order(*placed, plot=ROOMY)) == ("a",)
    assert best(order(*placed)) == ("a", "b")


def test_a_tree_below_what_is_worth_planting_stays_out() -> None:
    assert best(order(tree("a"), tree("b", fit=39.0))) == ("a",)


def test_a_single_self_sterile_tree_without_partner_is_not_chosen() -> None:
    assert best(order(shy("bing", "van", fit=99.0), tree("stella"), shy("van", "bing"), max_trees=1)) == ("stella",)


def test_a_standing_partner_lets_a_self_sterile_tree_stand_alone() -> None:
    standing = (StandingPartner("van"),)
    assert best(order(shy("bing", "van", fit=99.0), max_trees=1, standing=standing)) == ("bing",)


def test_two_trees_that_set_each_other_come_as_a_pair() -> None:
    assert best(order(shy("bing", "van"), shy("van", "bing"))) == ("bing", "van")


def test_a_partner_of_little_worth_comes_along_when_the_pair_is_worth_it() -> None:
    assert best(order(shy("bing", "van", fit=90.0), shy("van", "bing", fit=30.0))) == ("bing", "van")


def test_one_way_pollen_leaves_the_giver_without_a_partner() -> None:
    assert best(order(shy("bing", "van"), shy("van", "hudson"))) == ()


def test_a_triploid_needs_two_partners_that_are_served_themselves() -> None:
    mutsu = shy("mutsu", "gala", "akane", needs=2, fit=95.0)
    gala, akane = shy("gala", "akane"), shy("akane", "gala")
    assert best(order(mutsu, gala, akane, max_trees=2)) == ("akane", "gala")
    assert best(order(mutsu, gala, akane, max_trees=3)) == ("akane", "gala", "mutsu")


def test_one_partner_that_crops_alone_is_enough_for_a_triploid() -> None:
    assert best(order(shy("mutsu", "golden", needs=2), tree("golden"), max_trees=2)) == ("golden", "mutsu")


def test_two_trees_of_one_cultivar_are_one_partner() -> None:
    mutsu = shy("mutsu", "gala", needs=2, fit=95.0)
    twins = [tree(f"gala{n}", limbs=(Limb("gala", 1, proven=frozenset({"idared"})),)) for n in (1, 2)]
    assert best(order(mutsu, *twins, standing=(StandingPartner("idared"),))) == ("gala1", "gala2")


def test_a_grafted_tree_brings_its_own_partners() -> None:
    limbs = (Limb("bing", 1, proven=frozenset({"van"})), Limb("van", 1, proven=frozenset({"bing"})))
    assert best(order(tree("cherry with two limbs", limbs=limbs), max_trees=1)) == ("cherry with two limbs",)


def test_every_limb_of_a_grafted_tree_must_be_served() -> None:
    limbs = (Limb("bing", 1, proven=frozenset({"van"})), Limb("van", 1, proven=frozenset({"hudson"})))
    assert best(order(tree("cherry with two limbs", limbs=limbs), max_trees=1)) == ()


def test_a_likely_partner_serves_but_costs_points_and_is_named() -> None:
    pair = (shy("fuji", likely=("liberty",)), shy("liberty", likely=("fuji",)))
    chosen = choose(order(*pair)).best
    assert chosen is not None
    assert chosen.unproven == ("fuji", "liberty")
    assert chosen.partners == {"fuji": ("liberty",), "liberty": ("fuji",)}
    assert chosen.points == 2 * (70 - 40) + 30 + 15 - 2 * 10


def test_a_proven_partner_is_taken_before_a_likely_one_of_equal_fit() -> None:
    placed = order(shy("fuji", "gala", likely=("akane",), fit=80.0), tree("akane"), tree("gala"), max_trees=2)
    assert best(placed) == ("fuji", "gala")


def test_the_harvest_is_spread_over_the_wished_months() -> None:
    offer = (tree("july1", fit=90.0), tree("july2", fit=85.0), tree("august", fit=70.0, months=frozenset({8})))
    assert best(order(*offer, max_trees=2, wished_months=frozenset({7, 8}))) == ("august", "july1")
    assert best(order(*offer, max_trees=2, wished_months=frozenset({7}))) == ("july1", "july2")


def test_a_month_that_a_standing_tree_covers_earns_nothing_more() -> None:
    offer = (tree("july", fit=80.0), tree("august", fit=70.0, months=frozenset({8})))
    assert best(order(*offer, max_trees=1, months_already=frozenset({7}))) == ("august",)


def test_of_equal_trees_the_first_by_id_is_taken() -> None:
    assert best(order(*(tree(name) for name in "dbca"), max_trees=2)) == ("a", "b")


def test_no_crop_is_planted_more_often_than_is_wished() -> None:
    offer = [tree(f"plum{n}") for n in range(3)] + [tree("fig", crop="fig", fit=41.0)]
    assert best(order(*offer, max_of_crop=1)) == ("fig", "plum0")


def test_wide_and_narrow_trees_share_the_rows_of_a_plot() -> None:
    offer = [tree("wide", spacing_ft=18.0)] + [tree(f"small{n}", spacing_ft=6.0) for n in range(4)]
    plot = Plot(24, 18, edge_share=0.5)
    assert len(best(order(*offer, max_trees=5, plot=plot))) == 4
    assert len(best(order(*offer, max_trees=5, plot=Plot(24, 24, edge_share=0.5)))) == 5


def test_rows_run_along_whichever_side_holds_the_better_set() -> None:
    offer = [tree("wide", spacing_ft=12.0), tree("small1", spacing_ft=6.0), tree("small2", spacing_ft=6.0)]
    assert len(best(order(*offer, plot=Plot(18, 12, edge_share=0.5)))) == 3
    assert len(best(order(*offer, plot=Plot(12, 18, edge_share=0.5)))) == 3


def test_the_second_set_is_another_one_and_says_what_it_gives_up() -> None:
    outcome = choose(order(tree("july", fit=90.0), tree("august", months=frozenset({8})), max_trees=1))
    assert outcome.best is not None
    assert outcome.second is not None
    assert outcome.given_up is not None
    assert (outcome.best.trees, outcome.second.trees) == (("july",), ("august",))
    assert outcome.given_up.points == 20
    assert (outcome.given_up.months, outcome.given_up.trees) == ((7,), ("july",))
    assert outcome.given_up.instead == ("august",)


def test_a_single_possible_set_has_no_second() -> None:
    assert choose(order(tree("a"), max_trees=1)).second is None


@pytest.mark.parametrize(
    ("fault", "says"),
    [
        (lambda: Plot(10, 10, edge_share=0.6), "half of its spacing"),
        (lambda: Weights(40, -1, 0, 0), "below zero"),
        (lambda: Limb("a", -1), "needs no partner or some"),
        (lambda: tree("a", limbs=()), "at least one cultivar"),
        (lambda: tree("a", spacing_ft=0.0), "above zero"),
        (lambda: order(max_trees=0), "at least one tree"),
        (lambda: order(tree("a"), tree("a")), "same id"),
    ],
)
def test_an_order_that_makes_no_sense_is_refused(fault, says) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError, match=says):
        fault()


def test_the_shortlist_keeps_the_partners_of_those_it_keeps() -> None:
    offer = [shy("bing", "van", fit=99.0), shy("van", "bing", fit=45.0)] + [tree(f"plum{n}") for n in range(20)]
    kept = {one.id for one in shortlist(offer, size=4, per_crop_month=1)}
    assert {"bing", "van"} <= kept
    assert len(kept) == 4


def test_the_shortlist_keeps_the_best_of_each_month() -> None:
    offer = [tree(f"july{n}", fit=90.0) for n in range(9)] + [tree("may", fit=50.0, months=frozenset({5}))]
    assert "may" in {one.id for one in shortlist(offer, size=3, per_crop_month=1)}


# --- against every possible set ------------------------------------------------------------------------------------

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
