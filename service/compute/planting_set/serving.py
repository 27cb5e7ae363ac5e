"""Pollination as rows of the program: no tree stands without the partners that each of its limbs needs.

A cultivar is present once, however many trees carry it, so two trees of one cultivar are one partner. A partner that
needs none itself is enough alone, also for a triploid, which otherwise takes two that serve each other.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from service.compute.integer_program import Program
from service.compute.planting_set.order import Limb, Order, Tree


class Serving:
    """Who may serve whom among the trees of a program and those that stand already."""

    def __init__(self, program: Program, order: Order, chosen: Sequence[tuple[Tree, int]]) -> None:
        self._program, self._chosen = program, chosen
        self._cost = order.weights.unproven_partner
        self._standing = {partner.cultivar: partner.crops_alone for partner in order.standing}
        limbs = [limb for tree, _ in chosen for limb in tree.limbs]
        self._alone = frozenset(limb.cultivar for limb in limbs if limb.partners_needed == 0)
        self._present = self._presence()

    def require_partners(self) -> None:
        """Add the rows for every limb that needs partners."""
        for tree, variable in self._chosen:
            for limb in tree.limbs:
                if limb.partners_needed > 0:
                    self._require(limb, variable)

    def _presence(self) -> dict[str, int]:
        """A variable for each cultivar on offer that does not stand already: one if a tree with it is chosen."""
        carriers: dict[str, dict[int, float]] = defaultdict(dict)
        for tree, variable in self._chosen:
            for limb in tree.limbs:
                if limb.cultivar not in self._standing:
                    carriers[limb.cultivar][variable] = -1.0
        present = {}
        for cultivar, trees in sorted(carriers.items()):
            present[cultivar] = self._program.variable(whole=False)
            self._program.row({present[cultivar]: 1.0} | trees, high=0)
        return present

    def _require(self, limb: Limb, tree: int) -> None:
        """All partners together make up the need of a limb; what the proven ones leave of it costs points."""
        needed = float(limb.partners_needed)
        unproven = self._program.variable(-self._cost, whole=False)
        for partners, owed in (
            (limb.proven | limb.likely, {tree: -needed}),
            (limb.proven, {tree: -needed, unproven: needed}),
        ):
            others = partners - {limb.cultivar}
            self._program.row(self._planted(limb, others) | owed, low=-self._there(limb, others))

    def _planted(self, limb: Limb, partners: frozenset[str]) -> dict[int, float]:
        """What each cultivar on offer counts as a partner of a limb."""
        offered = sorted(partners & self._present.keys())
        return {self._present[one]: float(limb.partners_needed if one in self._alone else 1) for one in offered}

    def _there(self, limb: Limb, partners: frozenset[str]) -> float:
        """What the standing cultivars count as partners of a limb."""
        there = partners & self._standing.keys()
        return sum(limb.partners_needed if self._standing[one] else 1 for one in there)
