"""Each branch of a plan: what stays on it and where, and whether it bends too far under that."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from service.compute.crop_load import CarriedBranch, Fruiting, Limb, Thirds, in_thirds, safe_fruit, strain
from service.domain.crop_load import Branch
from service.questions.thinning.cases import INCHES_PER_FOOT
from service.questions.thinning.measured import Limits
from service.questions.thinning.question import BranchPlan
from service.reasoning.matcher import Matcher
from service.reasoning.vocabulary import Value

RULESET = "thinning.branch"
_EVEN = Thirds(1, 1, 1)


@dataclass(frozen=True, slots=True)
class BranchJudge:
    """Judges the branches of one variety; `facts` are those of the variety that concern each of its branches."""

    asking: Matcher
    limits: Limits
    facts: Mapping[str, Value]

    def plan(self, carried: CarriedBranch, action: str | None) -> BranchPlan:
        """One branch with what stays and comes off once the rules have decided on the tree."""
        keep, remove = decided(carried.branch.fruit, carried.keep, action)
        shares = self._shares(carried.branch)
        facts = {**self.facts, **self._load_facts(carried, keep, remove), **self._strain(carried.branch, keep, shares)}
        return BranchPlan(
            carried=carried,
            keep=keep,
            remove=remove,
            thirds=None if keep is None or not carried.branch.length_in else in_thirds(keep, shares),
            facts=facts,
            judgement=self.asking.judge(RULESET, facts),
        )

    def _shares(self, branch: Branch) -> Thirds:
        """How fruit spread along a branch; a thin one carries none on its outer third."""
        names = ("inner_third", "middle_third", "outer_third")
        shares = Thirds(*(self.limits[f"thinning.reckoning.{name}"].value for name in names))
        thin = branch.diameter_in is not None and branch.diameter_in < self._number("reckoning.thinnest_branch")
        return shares.without_tip() if thin else shares

    def _load_facts(self, carried: CarriedBranch, keep: int | None, remove: int | None) -> dict[str, Value]:
        branch = carried.branch
        feet = None if branch.length_in is None else branch.length_in / INCHES_PER_FOOT
        facts: dict[str, Value | None] = {
            "branch.length_in": branch.length_in,
            "branch.diameter_in": branch.diameter_in,
            "branch.fruit": branch.fruit,
            "branch.keep": keep,
            "branch.remove": remove,
            "branch.per_foot": None if feet is None or branch.fruit is None else branch.fruit / feet,
            "branch.bound_by": carried.bound_by,
        }
        return {name: value for name, value in facts.items() if value is not None}

    def _strain(self, branch: Branch, keep: int | None, shares: Thirds) -> dict[str, Value]:
        weight = self.limits.get(f"thinning.{self.facts['crop']}.fruit_weight")
        if weight is None or branch.length_in is None or branch.diameter_in is None:
            return {}
        fruiting = Fruiting(weight.value, self._number("reckoning.wood_strength"))
        limb = Limb(branch.length_in, branch.diameter_in, shares.lever)
        facts: dict[str, Value] = {"branch.safe_fruit": safe_fruit(limb, fruiting, most=self._number("strain.prop"))}
        if keep is not None:
            facts["branch.strain"] = strain(limb, keep, fruiting)
        if branch.fruit is not None:
            facts["branch.strain_unthinned"] = strain(replace(limb, lever=_EVEN.lever), branch.fruit, fruiting)
        return facts

    def _number(self, limit: str) -> float:
        return self.limits[f"thinning.{limit}"].value


def decided(fruit: int | None, keep: int | None, action: str | None) -> tuple[int | None, int | None]:
    """What stays and what comes off once the rules have said what to do; what nobody counted stays unknown.

    >>> decided(48, 6, "thin"), decided(48, 6, "leave"), decided(48, 6, "remove_all"), decided(None, 6, "thin")
    ((6, 42), (48, 0), (0, 48), (6, None))
    """
    if action == "leave":
        return fruit, 0
    if action == "remove_all":
        return 0, fruit
    return keep, None if fruit is None or keep is None else fruit - keep
