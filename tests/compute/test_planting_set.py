"""The planting set in hand-made gardens; all fits, spacings and weights are invented."""

from __future__ import annotations

import pytest

from service.compute.planting_set import Limb, Plot, StandingPartner, Weights, choose, shortlist
from tests.compute.made_up_garden import ROOMY, best, order, shy, tree


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
    pair = (shy("braeburn", likely=("liberty",)), shy("liberty", likely=("braeburn",)))
    chosen = choose(order(*pair)).best
    assert chosen is not None
    assert chosen.unproven == ("braeburn", "liberty")
    assert chosen.partners == {"braeburn": ("liberty",), "liberty": ("braeburn",)}
    assert chosen.points == 2 * (70 - 40) + 30 + 15 - 2 * 10


def test_a_proven_partner_is_taken_before_a_likely_one_of_equal_fit() -> None:
    placed = order(shy("braeburn", "gala", likely=("akane",), fit=80.0), tree("akane"), tree("gala"), max_trees=2)
    assert best(placed) == ("braeburn", "gala")


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
