"""What was measured and what was not: ratios by which odd sizes show, and the sizes that would change the plan."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from service.compute.crop_load import Carried, Part, Reach
from service.compute.crop_load.bounds import by_spacing, crown_height_ft
from service.compute.crop_load.sections import diameter_of_girth, diameter_of_section, section_cm2
from service.domain.crop_load import Branch, Load, TreeSize
from service.domain.errors import NotUnderstood
from service.questions.thinning.cases import INCHES_PER_FOOT
from service.questions.thinning.question import Variety
from service.reasoning.limits import Limit
from service.reasoning.vocabulary import Value

Limits = Mapping[str, Limit]


def reach_of(limits: Limits) -> Reach:
    """The thickest stems for which fruit by section was published."""
    names = ("thinning.reckoning.thickest_branch", "thinning.reckoning.thickest_trunk")
    return Reach(*(limits[name].value for name in names))


def refuse_impossible(variety: Variety, limits: Limits) -> None:
    """NotUnderstood where a branch is said to carry more fruit than can hang on it."""
    most = limits["thinning.refuse.fruit_per_foot"].value
    faults = [
        (f"{variety.at}/branches/{place}/fruit", _too_many(branch))
        for place, branch in enumerate(variety.load.branches)
        if (per_foot := _per_foot(branch)) is not None and per_foot > most
    ]
    if faults:
        raise NotUnderstood(*faults)


def _too_many(branch: Branch) -> str:
    return f"{branch.fruit} fruit cannot hang on {branch.length_in:g} in of branch; check the count and the length"


def measured_facts(tree: TreeSize, load: Load, limits: Limits) -> dict[str, Value]:
    """How the measures stand to one another."""
    facts: dict[str, Value | None] = {
        "measured.branches": len(load.branches),
        "measured.without_count": sum(branch.fruit is None for branch in load.branches),
        "measured.without_length": sum(b.fruit is not None and b.length_in is None for b in load.branches),
        "measured.without_diameter": sum(branch.diameter_in is None for branch in load.branches),
        "measured.most_per_foot": max((x for x in map(_per_foot, load.branches) if x is not None), default=None),
        "measured.length_over_thickness": min(_slenderness(load), default=None),
        "measured.crown": crown_height_ft(tree) is not None and tree.spread_ft is not None,
        **_trunk_facts(tree, load, limits),
    }
    if tree.height_ft is not None and tree.age_years is not None:
        facts["measured.height_per_year_ft"] = tree.height_ft / tree.age_years
    thickest = _thickest(load)
    if thickest is not None:
        facts["measured.branch_range"] = _range(thickest, limits, "branch")
    return {name: value for name, value in facts.items() if value is not None}


def _trunk_facts(tree: TreeSize, load: Load, limits: Limits) -> dict[str, Value | None]:
    if tree.trunk_girth_in is None:
        return {}
    trunk, thickest, counted = diameter_of_girth(tree.trunk_girth_in), _thickest(load), load.counted
    return {
        "measured.trunk_range": _range(trunk, limits, "trunk"),
        "measured.branch_over_trunk": None if thickest is None else thickest / trunk,
        "measured.trunk_per_year_in": None if tree.age_years is None else trunk / tree.age_years,
        "measured.most_per_trunk": None if counted is None else counted / section_cm2(trunk),
    }


def _range(diameter_in: float, limits: Limits, stem: str) -> str:
    if diameter_in < limits[f"thinning.reckoning.thinnest_{stem}"].value:
        return "thinner"
    return "thicker" if diameter_in > limits[f"thinning.reckoning.thickest_{stem}"].value else "within"


def _per_foot(branch: Branch) -> float | None:
    if branch.fruit is None or not branch.length_in:
        return None
    return branch.fruit / (branch.length_in / INCHES_PER_FOOT)


def _slenderness(load: Load) -> Iterator[float]:
    return (b.length_in / b.diameter_in for b in load.branches if b.length_in and b.diameter_in)


def _thickest(load: Load) -> float | None:
    return max((branch.diameter_in for branch in load.branches if branch.diameter_in), default=None)


def sizes_that_matter(tree: TreeSize, part: Part, *, carried: Carried, reach: Reach) -> dict[str, Value]:
    """The girth and the thickness under which a measure that is missing would allow fewer fruit."""
    facts, targets = dict[str, Value](), part.targets
    density = min((each for each in (targets.trunk_density, targets.young_density) if each), default=None)
    if tree.trunk_girth_in is None and density is not None and carried.keep:
        trunk = diameter_of_section(carried.keep / density)
        if trunk <= reach.trunk_in:
            facts["measured.girth_that_matters_in"] = trunk * math.pi
    spaced = [
        by_spacing(branch.length_in, targets.spacing_in)
        for branch in part.load.branches
        if branch.length_in and targets.spacing_in and not branch.diameter_in
    ]
    if spaced and targets.branch_density:
        thickness = diameter_of_section(max(spaced) / targets.branch_density)
        facts["measured.thickness_that_matters_in"] = min(thickness, reach.branch_in)
    return facts
