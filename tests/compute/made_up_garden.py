"""Made-up trees and orders for the tests of the planting set; all fits, spacings and weights are invented."""

from __future__ import annotations

from service.compute.planting_set import Limb, Order, Plot, Tree, Weights, choose

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
