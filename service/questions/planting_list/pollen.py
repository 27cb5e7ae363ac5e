"""Who sets whom among the trees of a list and those that stand near.

A cultivar that needs partners is served when the list and the standing trees count for as many as it needs; a partner
that crops alone is enough by itself. A standing tree farther off than bees are counted on for the crop counts for
nothing; one whose distance nobody told counts as near.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from service.compute.planting_set import Limb
from service.compute.planting_set.outcome import counted
from service.domain.crop import Crop
from service.domain.site import StandingTree
from service.questions.planting_list.tree import TreeHere
from service.questions.suggestion.planting import partners_needed
from service.questions.suggestion.prepared import Prepared
from service.questions.suggestion.standing import Standing
from service.reasoning.vocabulary import Value


@dataclass(frozen=True, slots=True)
class Served:
    """How a cultivar stands for pollen: partners by id, and what they rest on."""

    limb: Limb
    proven: tuple[str, ...]
    usual: tuple[str, ...]
    lacking: int
    usual_lacking: int

    @property
    def partners(self) -> tuple[str, ...]:
        """All that serve or usually do, the proven first."""
        return self.proven + self.usual

    @property
    def shown_by(self) -> str:
        """What the partners rest on."""
        return "proven" if self.lacking == 0 else "usual" if self.usual_lacking == 0 else "none"


class ListPollen:
    """The pollen of one list: `trees` are those that it asks for, one entry for each cultivar."""

    def __init__(
        self, trees: Iterable[TreeHere], existing: Sequence[StandingTree] | None, prepared: Prepared
    ) -> None:
        self._prepared, self._said = prepared, existing is not None
        self._trees = {tree.candidate.cultivar.id: tree for tree in trees}
        self._existing = tuple(existing or ())
        self._served: dict[str, Served] = {}
        self._around: dict[str, Standing] = {}

    @cached_property
    def listed(self) -> Mapping[str, bool]:
        """Each cultivar of the list, and whether it crops alone."""
        return {one: partners_needed(tree.candidate) == 0 for one, tree in self._trees.items()}

    def standing(self, crop: Crop) -> Mapping[str, bool]:
        """Each cultivar standing within reach of a new tree of the crop, and whether it crops alone."""
        near = (tree for tree in self._existing if _near(tree, crop))
        return {one: self._prepared.crops_alone(one) for tree in near for one in tree.cultivars}

    def served(self, cultivar: str) -> Served:
        """How a cultivar of the list stands."""
        if cultivar not in self._served:
            tree = self._trees[cultivar]
            here = {**self.listed, **self.standing(tree.candidate.crop)}
            self._served[cultivar] = stands(self._prepared.limb(cultivar, partners_needed(tree.candidate)), here)
        return self._served[cultivar]

    @property
    def unserved(self) -> tuple[str, ...]:
        """The cultivars of the list without the partners that they need."""
        return tuple(one for one in self._trees if self.served(one).usual_lacking > 0)

    @property
    def usual_only(self) -> tuple[str, ...]:
        """The cultivars of the list whose partners are merely what is usually advised."""
        return tuple(one for one in self._trees if self.served(one).shown_by == "usual")

    def facts(self, cultivar: str, on_tree: Sequence[str]) -> dict[str, Value]:
        """The pollen facts of a cultivar of the list; `on_tree` are all that grow on its tree."""
        served, crop = self.served(cultivar), self._trees[cultivar].candidate.crop
        near = self.standing(crop)
        facts: dict[str, Value] = {
            "pollen.partners_listed": sum(one in self.listed for one in served.partners),
            "pollen.on_same_tree": not set(on_tree).isdisjoint(served.partners),
            **self._best(cultivar, crop),
        }
        if self._said:
            facts["pollen.partners_standing"] = sum(one in near for one in served.partners)
        if served.usual_lacking == 0 or self._said:
            facts["pollen.served"] = served.usual_lacking == 0
        if served.limb.partners_needed:
            facts["pollen.shown_by"] = served.shown_by
        if served.partners:
            facts["pollen.first_partner"] = self.name(min(served.partners, key=self._set_aside))
        return facts

    def _set_aside(self, partner: str) -> bool:
        """Whether a partner is on the list and does not fit, so that it is named only where there is no other."""
        return partner in self._trees and not self._trees[partner].fits

    def _best(self, cultivar: str, crop: Crop) -> dict[str, Value]:
        """The best that any other tree of the crop, or of one that crosses with it, can do on the list or near."""
        if crop.id not in self._around:
            near = [tree for tree in self._existing if _near(tree, crop)]
            listed = [StandingTree(one.candidate.crop.id, (name,)) for name, one in self._trees.items()]
            crossing = {crop.id, *(crop.partner_crops.value if crop.partner_crops else ())}
            around = [tree for tree in (*near, *listed) if tree.crop in crossing]
            self._around[crop.id] = Standing(around, crops={crop.id: crop}, table=self._prepared.table)
        found = self._around[crop.id].facts(cultivar, crop.id)
        names = {
            "pollination.best_standing": "pollen.best", "pollination.bloom_gap_classes": "pollen.bloom_gap_classes"
        }  # fmt: skip
        return {names[name]: value for name, value in found.items() if name in names}

    def name(self, cultivar: str) -> str:
        """The denomination of a cultivar."""
        return self._prepared.cultivars[cultivar].cultivar.denomination


def stands(limb: Limb, here: Mapping[str, bool]) -> Served:
    """How a limb stands among the cultivars here, each with whether it crops alone."""
    others = {one: alone for one, alone in here.items() if one != limb.cultivar}
    proven = tuple(one for one in others if one in limb.proven)
    usual = tuple(one for one in others if one in limb.likely and one not in limb.proven)
    needed = limb.partners_needed
    by_proven = counted(limb, limb.proven, others)
    by_all = counted(limb, limb.proven | limb.likely, others)
    return Served(limb, proven, usual, max(0, round(needed - by_proven)), max(0, round(needed - by_all)))


def _near(tree: StandingTree, crop: Crop) -> bool:
    reach = crop.pollination_distance_ft
    return reach is None or tree.distance_ft is None or tree.distance_ft <= reach.value
