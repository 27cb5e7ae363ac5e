"""The planting set: which of the fitting cultivars to plant together, asked of the exact solver."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from service.compute.planting_set import (
    Order,
    Outcome,
    PlantingSet,
    Plot,
    StandingPartner,
    Tree,
    Weights,
    choose,
    shortlist,
)
from service.domain.site import Site
from service.questions.suggestion.cases import Asked
from service.questions.suggestion.prepared import Prepared
from service.questions.suggestion.question import Candidate, PlantingChoice, PlantingPlan


def choose_planting(
    candidates: Sequence[Candidate], asked: Asked, *, site: Site, prepared: Prepared
) -> PlantingChoice | None:
    """The best set of trees for the place and the second best; None where no tree is worth planting."""
    offer = _Offer(prepared, asked)
    everything = offer.order(tuple(offer.tree(candidate) for candidate in candidates), site)
    trees = shortlist(
        everything.plantable,
        size=int(prepared.number("planting_set.shortlist")),
        per_crop_month=int(prepared.number("planting_set.per_crop_month")),
    )
    outcome = choose(replace(everything, trees=trees))
    return offer.told(outcome, {candidate.cultivar.id: candidate for candidate in candidates})


@dataclass(frozen=True, slots=True)
class _Offer:
    prepared: Prepared
    asked: Asked

    def tree(self, candidate: Candidate) -> Tree:
        known = self.prepared.cultivars[candidate.cultivar.id]
        spacing = candidate.root.facts.get("tree.spacing_ft")
        return Tree(
            id=candidate.cultivar.id,
            crop=candidate.crop.id,
            limbs=(self.prepared.limb(candidate.cultivar.id, partners_needed(candidate)),),
            fit=candidate.fit,
            months=self.asked.months_of(known),
            spacing_ft=None if spacing is None else float(spacing),  # type: ignore[arg-type]
        )

    def order(self, trees: tuple[Tree, ...], site: Site) -> Order:
        number, wishes = self.prepared.number, self.asked.wishes
        plot = None
        if site.width_ft and site.depth_ft:
            plot = Plot(site.width_ft, site.depth_ft, edge_share=number("spacing.edge_share"))
        return Order(
            trees=trees,
            max_trees=wishes.max_trees or int(number("planting_set.trees")),
            weights=Weights(
                worth_fit=number("planting_set.worth_fit"),
                month=number("planting_set.month"),
                crop=number("planting_set.crop"),
                unproven_partner=number("planting_set.unproven_partner"),
            ),
            plot=plot,
            standing=tuple(_standing(sorted(self.asked.growing), self.prepared)),
            wished_months=frozenset(wishes.harvest_months),
            months_already=self._months_already(),
        )

    def _months_already(self) -> frozenset[int]:
        growing = (self.prepared.cultivars[cultivar] for cultivar in self.asked.growing)
        return frozenset().union(*(self.asked.months_of(known) for known in growing))

    def told(self, outcome: Outcome, candidates: Mapping[str, Candidate]) -> PlantingChoice | None:
        if outcome.best is None:
            return None
        best = _plan(outcome.best, candidates)
        if outcome.second is None or outcome.given_up is None:
            return PlantingChoice(best)
        return PlantingChoice(best, _plan(outcome.second, candidates), outcome.given_up)


def partners_needed(candidate: Candidate) -> int:
    """How many other cultivars a tree needs: what the rules conclude; where they conclude nothing, one to be safe."""
    concluded = candidate.judgement.concluded.get("partners_needed")
    return 1 if concluded is None else int(concluded)  # type: ignore[arg-type]


def _standing(growing: Iterable[str], prepared: Prepared) -> Iterable[StandingPartner]:
    for cultivar in growing:
        yield StandingPartner(cultivar, crops_alone=prepared.crops_alone(cultivar))


def _plan(planting: PlantingSet, candidates: Mapping[str, Candidate]) -> PlantingPlan:
    return PlantingPlan(
        trees=tuple(candidates[tree] for tree in planting.trees),
        months=planting.months,
        points=planting.points,
        partners=planting.partners,
        unproven=planting.unproven,
    )
