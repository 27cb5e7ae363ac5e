"""What comes of the choice: the sets with their points, their months and their partners, told for people to weigh."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.compute.planting_set.order import Limb, Order, Tree


@dataclass(frozen=True, slots=True)
class PlantingSet:
    """Trees to plant together. `partners` names, by tree, the cultivars here whose pollen serves it."""

    trees: tuple[str, ...]
    months: tuple[int, ...]
    points: float
    partners: Mapping[str, tuple[str, ...]]
    unproven: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GivenUp:
    """What one set gives up against another: points, months no longer covered, and trees swapped out and in."""

    points: float
    months: tuple[int, ...]
    trees: tuple[str, ...]
    instead: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """The best set, the second best, and what the second gives up; None where no such set is worth planting."""

    best: PlantingSet | None
    second: PlantingSet | None
    given_up: GivenUp | None


def shortfall(limb: Limb, here: Mapping[str, bool]) -> float:
    """Share of the partners a limb needs that are not proven; `here` says of each other cultivar if it crops alone.

    A partner that crops alone is enough by itself, since it needs no partner of its own.
    """
    if limb.partners_needed == 0:
        return 0.0
    return max(0.0, 1 - counted(limb, limb.proven, here) / limb.partners_needed)


def counted(limb: Limb, partners: frozenset[str], here: Mapping[str, bool]) -> float:
    """How many partners those present count for."""
    present = [cultivar for cultivar in partners if cultivar in here and cultivar != limb.cultivar]
    return sum(limb.partners_needed if here[cultivar] else 1 for cultivar in present)


def describe(order: Order, chosen: Sequence[Tree]) -> PlantingSet:
    """A set of trees with its points worked out from the order, not taken from the solver."""
    here = present(order, chosen)
    months = frozenset().union(*(tree.months for tree in chosen)) & order.open_months
    lacking = {tree.id: sum(shortfall(limb, here) for limb in tree.limbs) for tree in chosen}
    weights = order.weights
    points = sum(tree.fit - weights.worth_fit for tree in chosen)
    points += weights.month * len(months) + weights.crop * len({tree.crop for tree in chosen})
    points -= weights.unproven_partner * sum(lacking.values())
    return PlantingSet(
        trees=tuple(tree.id for tree in chosen),
        months=tuple(sorted(months)),
        points=round(points, 6),
        partners={tree.id: _partners(tree, here) for tree in chosen},
        unproven=tuple(tree for tree, share in lacking.items() if share > 0),
    )


def present(order: Order, chosen: Sequence[Tree]) -> dict[str, bool]:
    """Every cultivar that would stand here, planted or standing already, and whether it crops alone."""
    here = {limb.cultivar: limb.partners_needed == 0 for tree in chosen for limb in tree.limbs}
    return here | {standing.cultivar: standing.crops_alone for standing in order.standing}


def give_up(best: PlantingSet, second: PlantingSet) -> GivenUp:
    """What the second set gives up against the best."""
    return GivenUp(
        points=round(best.points - second.points, 6),
        months=tuple(month for month in best.months if month not in second.months),
        trees=tuple(tree for tree in best.trees if tree not in second.trees),
        instead=tuple(tree for tree in second.trees if tree not in best.trees),
    )


def _partners(tree: Tree, here: Mapping[str, bool]) -> tuple[str, ...]:
    serving = {
        cultivar
        for limb in tree.limbs
        if limb.partners_needed > 0
        for cultivar in limb.proven | limb.likely
        if cultivar in here and cultivar != limb.cultivar
    }
    return tuple(sorted(serving))
