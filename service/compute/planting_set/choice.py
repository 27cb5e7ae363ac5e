"""Chooses the planting set: a mixed-integer program, so that the answer is the best there is and not a good guess.

Each tree is planted or not. It counts its fit above what is worth planting; each wished month with a harvest and each
crop count once. A tree stands only with the partners it needs, planted with it or standing near already. When room
may run short, the trees stand in rows along the width or along the depth, whichever holds the better set.

Sets of equal points are common. A hair of a point, less the later a tree stands in the order of ids, settles them
always in the same way.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from service.compute.planting_set.order import Limb, Order, Tree
from service.compute.planting_set.outcome import GivenUp, Outcome, PlantingSet, describe, give_up
from service.compute.planting_set.program import Program
from service.compute.planting_set.rows import always_fit, keep_within, room

Rectangle = tuple[float, float]
_CHOSEN = 0.5
_HAIR = 1e-3
_SAME_POINTS = 1e-6


def choose(order: Order) -> Outcome:
    """The best and the second best set of trees for an order."""
    best = _best(order, ())
    second = _best(order, (best,)) if best else None
    given_up: GivenUp | None = give_up(best, second) if best and second else None
    return Outcome(best, second, given_up)


def _best(order: Order, barred: Sequence[PlantingSet]) -> PlantingSet | None:
    """The best set that is not barred; None where nothing is worth planting. Of equals the first one stays."""
    found: PlantingSet | None = None
    for plot in _plots(order):
        trees = _solve(order, barred, plot)
        if not trees:
            continue
        planting = describe(order, trees)
        if found is None or planting.points > found.points + _SAME_POINTS:
            found = planting
    return found


def _plots(order: Order) -> Iterator[Rectangle | None]:
    """The rectangles to set rows in: none where room cannot run short, else the plot one way and the other."""
    trees = order.plantable
    if order.plot is None or not trees:
        yield None
        return
    width_ft, depth_ft = room(order.plot, min(tree.spacing_ft or 0.0 for tree in trees))
    ways = {(width_ft, depth_ft): None, (depth_ft, width_ft): None}
    if any(always_fit(trees, order.max_trees, width_ft=along, depth_ft=across) for along, across in ways):
        yield None
        return
    yield from ways


def _solve(order: Order, barred: Sequence[PlantingSet], plot: Rectangle | None) -> tuple[Tree, ...]:
    program = Program()
    chosen = _offer(program, order)
    if not chosen:
        return ()
    program.row({variable: 1.0 for _, variable in chosen}, high=order.max_trees)
    _count_months(program, order, chosen)
    _count_crops(program, order, chosen)
    _serve(program, order, chosen)
    for planting in barred:
        _bar(program, planting, chosen)
    if plot is not None:
        keep_within(program, chosen, order.max_trees, width_ft=plot[0], depth_ft=plot[1])
    solved = program.best()
    return () if solved is None else tuple(tree for tree, variable in chosen if solved[1][variable] > _CHOSEN)


def _offer(program: Program, order: Order) -> list[tuple[Tree, int]]:
    """A variable for each tree that can stand on the plot: one if it is planted."""
    trees = order.plantable
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


def _serve(program: Program, order: Order, chosen: Sequence[tuple[Tree, int]]) -> None:
    """No tree without the partners that each of its limbs needs."""
    standing = {partner.cultivar: partner.crops_alone for partner in order.standing}
    present, alone = _present(program, chosen, standing)
    for tree, variable in chosen:
        for limb in tree.limbs:
            if limb.partners_needed > 0:
                _serve_limb(program, limb, variable, Pollen(present, alone, standing), order)


class Pollen:
    """Where pollen may come from: variables of the cultivars on offer, who crops alone, and what stands already."""

    def __init__(self, present: Mapping[str, int], alone: frozenset[str], standing: Mapping[str, bool]) -> None:
        self.present, self.alone, self.standing = present, alone, standing

    def planted(self, limb: Limb, partners: frozenset[str]) -> dict[int, float]:
        """What each cultivar on offer counts as a partner of a limb."""
        offered = sorted((partners & self.present.keys()) - {limb.cultivar})
        return {self.present[one]: float(limb.partners_needed if one in self.alone else 1) for one in offered}

    def there(self, limb: Limb, partners: frozenset[str]) -> float:
        """What the standing cultivars count as partners of a limb."""
        there = (partners & self.standing.keys()) - {limb.cultivar}
        return sum(limb.partners_needed if self.standing[one] else 1 for one in there)


def _present(
    program: Program, chosen: Sequence[tuple[Tree, int]], standing: Mapping[str, bool]
) -> tuple[dict[str, int], frozenset[str]]:
    """A variable for each cultivar on offer that does not stand already: one if a tree that carries it is chosen."""
    carriers: dict[str, dict[int, float]] = defaultdict(dict)
    for tree, variable in chosen:
        for limb in tree.limbs:
            if limb.cultivar not in standing:
                carriers[limb.cultivar][variable] = -1.0
    present = {}
    for cultivar, trees in sorted(carriers.items()):
        present[cultivar] = program.variable(whole=False)
        program.row({present[cultivar]: 1.0} | trees, high=0)
    limbs = (limb for tree, _ in chosen for limb in tree.limbs)
    return present, frozenset(limb.cultivar for limb in limbs if limb.partners_needed == 0)


def _serve_limb(program: Program, limb: Limb, tree: int, pollen: Pollen, order: Order) -> None:
    """All partners together make up the need; what the proven ones leave of it costs points."""
    needed = float(limb.partners_needed)
    anyone = limb.proven | limb.likely
    program.row(pollen.planted(limb, anyone) | {tree: -needed}, low=-pollen.there(limb, anyone))
    unproven = program.variable(-order.weights.unproven_partner, whole=False)
    short = {unproven: needed, tree: -needed}
    program.row(pollen.planted(limb, limb.proven) | short, low=-pollen.there(limb, limb.proven))


def _bar(program: Program, planting: PlantingSet, chosen: Sequence[tuple[Tree, int]]) -> None:
    """Any set but this one."""
    inside = set(planting.trees)
    terms = {variable: 1.0 if tree.id in inside else -1.0 for tree, variable in chosen}
    program.row(terms, high=len(inside) - 1)
