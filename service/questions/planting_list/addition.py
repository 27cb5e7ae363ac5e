"""The smallest addition: the fewest trees that give every tree of a list the partners that it needs.

Candidates fit the place; where the stock is known, those in stock are tried first, then the whole catalogue. What is
added may itself need a partner, so the question is put again until nothing is lacking or nothing helps.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from service.compute.planting_set import Limb
from service.compute.pollen_cover import smallest_cover
from service.domain.checked_list import AddedTree, Addition
from service.questions.planting_list.pollen import ListPollen, stands
from service.questions.planting_list.stock import Shelf
from service.questions.planting_list.tree import TreesHere
from service.questions.suggestion import Candidate
from service.questions.suggestion.planting import partners_needed

_ROUNDS = 4


def smallest_addition(pollen: ListPollen, trees: TreesHere, shelf: Shelf | None) -> Addition | None:
    """The fewest trees to add; None where nothing is lacking."""
    if not pollen.unserved:
        return None
    in_stock = _Search(pollen, trees, shelf).found() if shelf is not None else None
    if in_stock is not None and not in_stock.unserved:
        return in_stock
    anywhere = _Search(pollen, trees, None).found()
    better = in_stock is None or len(anywhere.unserved) < len(in_stock.unserved)
    return anywhere if better or in_stock is None else in_stock


@dataclass
class _Search:
    pollen: ListPollen
    trees: TreesHere
    shelf: Shelf | None
    added: dict[str, Candidate] = field(default_factory=dict)

    def found(self) -> Addition:
        for _ in range(_ROUNDS):
            lacking = self.lacking()
            chosen = self.cover(lacking) if lacking else ()
            if not chosen:
                break
            self.added |= {one.cultivar.id: one for one in chosen}
        return self.told()

    def limbs(self) -> list[Limb]:
        """Every cultivar that may lack a partner: those of the list that do, and those that were added."""
        added = [self.trees.known.limb(one, partners_needed(tree)) for one, tree in self.added.items()]
        return [self.pollen.served(one).limb for one in self.pollen.unserved] + added

    def here(self, limb: Limb) -> Mapping[str, bool]:
        crop = self.trees.known.cultivars[limb.cultivar].crop
        added = {one: partners_needed(tree) == 0 for one, tree in self.added.items()}
        return {**self.pollen.listed, **self.pollen.standing(crop), **added}

    def lacking(self) -> list[tuple[Limb, int]]:
        found = [(limb, stands(limb, self.here(limb)).usual_lacking) for limb in self.limbs()]
        return [(limb, count) for limb, count in found if count > 0]

    def cover(self, lacking: Sequence[tuple[Limb, int]]) -> tuple[Candidate, ...]:
        """The fewest candidates for what is lacking: by proven partners, or by usual ones where no proven will do."""
        for proven_only in (True, False):
            candidates = self.candidates([limb for limb, _ in lacking], proven_only)
            if not candidates:
                continue
            serves = np.array([
                [_counts(one, limb, needed, proven_only) for one in candidates] for limb, needed in lacking
            ])  # fmt: skip
            cover = smallest_cover(serves, [count for _, count in lacking], [one.fit for one in candidates])
            if cover.added and (not cover.unserved or not proven_only):
                return tuple(candidates[index] for index in cover.added)
        return ()

    def candidates(self, limbs: Sequence[Limb], proven_only: bool) -> list[Candidate]:
        """The fitting cultivars that serve any of these and are not there yet, the fittest first."""
        wanted = frozenset().union(*(limb.proven if proven_only else limb.proven | limb.likely for limb in limbs))
        there = {*self.pollen.listed, *self.added}
        judged = (self.trees.candidate(one) for one in sorted(wanted - there) if self.offered(one))
        return sorted((one for one in judged if one.fits), key=lambda one: (-one.fit, one.cultivar.id))

    def offered(self, cultivar: str) -> bool:
        return self.shelf is None or self.shelf.holds(cultivar) > 0

    def told(self) -> Addition:
        unserved = tuple(limb.cultivar for limb, _ in self.lacking())
        return Addition(tuple(self.tree(one) for one in self.added.values()), unserved)

    def tree(self, one: Candidate) -> AddedTree:
        root, cultivar = one.root.rootstock, one.cultivar.id
        served = tuple(limb.cultivar for limb in self.limbs() if cultivar in limb.proven | limb.likely)
        in_stock = None if self.shelf is None else self.shelf.holds(cultivar)
        return AddedTree(cultivar, None if root is None else root.id, one.fit, served, in_stock)


def _counts(one: Candidate, limb: Limb, needed: int, proven_only: bool) -> int:
    """How many partners a candidate counts for; one that crops alone is enough by itself."""
    serving = limb.proven if proven_only else limb.proven | limb.likely
    if one.cultivar.id not in serving:
        return 0
    return needed if partners_needed(one) == 0 else 1
