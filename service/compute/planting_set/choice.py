"""Chooses the planting set: a mixed-integer program, so that the answer is the best there is and not a good guess.

Each tree is planted or not. It counts its fit above what is worth planting; each wished month with a harvest and each
crop count once. A tree stands only with the partners it needs, planted with it or standing near already. Where room
may run short, a set that is found is laid out in rows; if it does not go in, it is barred and the search goes on.

Sets of equal points are common. A hair of a point, less the later a tree stands in the order of ids, settles them
always in the same way.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from service.compute.integer_program import Program
from service.compute.planting_set.order import Order, Tree
from service.compute.planting_set.outcome import GivenUp, Outcome, PlantingSet, describe, give_up
from service.compute.planting_set.room import always_fits, bar_as_wide, keep_to_the_ground, spacing_of
from service.compute.planting_set.rows import Ground, ground
from service.compute.planting_set.serving import Serving

_CHOSEN = 0.5
_HAIR = 1e-3


def choose(order: Order) -> Outcome:
    """The best and the second best set of trees for an order."""
    search = _Search(order)
    best = search.best_but()
    second = search.best_but(best) if best else None
    given_up: GivenUp | None = give_up(best, second) if best and second else None
    return Outcome(best, second, given_up)


class _Search:
    """The search for the sets of one order; what turned out too wide for the plot is remembered between them."""

    def __init__(self, order: Order) -> None:
        self._order = order
        self._trees = order.plantable
        self._ground = self._tight_ground()
        self._too_wide: list[tuple[float, ...]] = []

    def best_but(self, *barred: PlantingSet) -> PlantingSet | None:
        """The best set apart from those barred; None where nothing is worth planting."""
        while True:
            trees = self._solve(barred)
            if not trees:
                return None
            if self._ground is None:
                return describe(self._order, trees)
            spacings = tuple(map(spacing_of, trees))
            if self._ground.holds(spacings):
                return describe(self._order, trees)
            self._too_wide.append(self._ground.tightest(spacings))

    def _tight_ground(self) -> Ground | None:
        """The ground, where room may run short; None where every choice of trees goes in."""
        if self._order.plot is None or not self._trees:
            return None
        room = ground(self._order.plot, min(map(spacing_of, self._trees)))
        return None if always_fits(self._trees, self._order.max_trees, room) else room

    def _solve(self, barred: Sequence[PlantingSet]) -> tuple[Tree, ...]:
        program = Program()
        chosen = _offer(program, self._order, self._trees)
        program.row({variable: 1.0 for _, variable in chosen}, high=self._order.max_trees)
        _count_months(program, self._order, chosen)
        _count_crops(program, self._order, chosen)
        Serving(program, self._order, chosen).require_partners()
        for planting in barred:
            _bar(program, planting, chosen)
        if self._ground is not None:
            keep_to_the_ground(program, chosen, self._ground)
            for spacings in self._too_wide:
                bar_as_wide(program, chosen, spacings)
        solved = program.best() if chosen else None
        return () if solved is None else tuple(tree for tree, variable in chosen if solved[variable] > _CHOSEN)


def _offer(program: Program, order: Order, trees: Sequence[Tree]) -> list[tuple[Tree, int]]:
    """A variable for each tree that can stand on the plot: one if it is planted."""
    earned = (tree.fit - order.weights.worth_fit for tree in trees)
    return [
        (tree, program.variable(points - _HAIR * place / len(trees)))
        for place, (tree, points) in enumerate(zip(trees, earned, strict=True))
    ]


def _count_months(program: Program, order: Order, chosen: Sequence[tuple[Tree, int]]) -> None:
    """Each open month counts once, if a chosen tree is picked in it."""
    for month in sorted(order.open_months):
        pickers = {variable: -1.0 for tree, variable in chosen if month in tree.months}
        if pickers:
            program.row({program.variable(order.weights.month, whole=False): 1.0} | pickers, high=0)


def _count_crops(program: Program, order: Order, chosen: Sequence[tuple[Tree, int]]) -> None:
    """Each crop counts once, and no crop is planted more often than is wished."""
    by_crop: dict[str, dict[int, float]] = defaultdict(dict)
    for tree, variable in chosen:
        by_crop[tree.crop][variable] = 1.0
    for trees in by_crop.values():
        planted = program.variable(order.weights.crop, whole=False)
        program.row({planted: 1.0} | dict.fromkeys(trees, -1.0), high=0)
        if order.max_of_crop is not None:
            program.row(trees, high=order.max_of_crop)


def _bar(program: Program, planting: PlantingSet, chosen: Sequence[tuple[Tree, int]]) -> None:
    """Any set but this one."""
    inside = set(planting.trees)
    terms = {variable: 1.0 if tree.id in inside else -1.0 for tree, variable in chosen}
    program.row(terms, high=len(inside) - 1)
