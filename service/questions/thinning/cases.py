"""A variety on a tree as a case: what was said of it, what was measured, and what the measures come to."""

from __future__ import annotations

from collections.abc import Mapping

from service.compute.crop_load import Carried
from service.compute.crop_load.sections import INCH_CM, diameter_of_girth
from service.domain.crop import Crop
from service.domain.crop_load import Load
from service.domain.cultivar import Cultivar
from service.questions.thinning.question import ThinningQuestion, Variety
from service.questions.thinning.timing import moment_facts
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

INCHES_PER_FOOT = 12
_TARGET_NAMES: Mapping[str, str] = {"thinning_need": "need", "thinning_tool": "tool"}


def said_facts(question: ThinningQuestion, variety: Variety, *, rulebook: Rulebook) -> dict[str, Value]:
    """All that was said of the tree, the variety and the season, by the names of the vocabulary."""
    crop = rulebook.catalogue.crops[question.crop]
    cultivar = None if variety.cultivar is None else rulebook.catalogue.cultivars[variety.cultivar]
    facts: dict[str, Value | None] = {
        **_tree_facts(question),
        **_variety_facts(variety, crop, cultivar),
        "tree.varieties": len(question.varieties),
        "site.frost_past": question.place.frost_past,
        "site.codling_moth": question.place.codling_moth,
        "site.brown_rot": question.place.brown_rot,
        "wish.large_fruit": question.place.large_fruit,
        **load_facts(variety.load),
        **moment_facts(question.moment, rulebook),
    }
    return {name: value for name, value in facts.items() if value is not None}


def _tree_facts(question: ThinningQuestion) -> dict[str, Value | None]:
    tree, habit = question.tree, question.habit
    girth = tree.trunk_girth_in
    return {
        "tree.age_years": tree.age_years,
        "tree.height_ft": tree.height_ft,
        "tree.trunk_girth_in": girth,
        "tree.trunk_diameter_in": None if girth is None else diameter_of_girth(girth),
        "tree.vigour": habit.vigour,
        "tree.last_crop": habit.last_crop,
        "tree.split_pits": habit.split_pits,
    }


def _variety_facts(variety: Variety, crop: Crop, cultivar: Cultivar | None) -> dict[str, Value | None]:
    published = None if cultivar is None or cultivar.ripening is None else cultivar.ripening.value
    return {
        "crop": crop.id,
        "crop.kind": crop.kind,
        "tree.cultivar": variety.cultivar,
        "cultivar.ripening": variety.ripening or published,
        "fruit.size_class": variety.fruit_size,
        "fruit.hybrid_type": variety.hybrid_type,
        "tree.bearing": variety.bearing,
    }


def load_facts(load: Load) -> dict[str, Value]:
    """The fruit as they hang: how they were counted, how many, and how close."""
    counted = [(one.fruit, one.length_in) for one in load.branches if one.fruit is not None and one.length_in]
    feet = sum(length for _, length in counted) / INCHES_PER_FOOT
    placed = [(one.fruit, one.places) for one in load.branches if one.fruit is not None and one.places]
    facts: dict[str, Value | None] = {
        "load.basis": _basis(load),
        "load.set": load.set,
        "load.fruit": load.counted,
        "load.per_foot": sum(fruit for fruit, _ in counted) / feet if feet else None,
        "load.fruit_per_place": _ratio(sum(fruit for fruit, _ in placed), sum(places for _, places in placed)),
    }
    return {name: value for name, value in facts.items() if value is not None}


def _basis(load: Load) -> str:
    counted = any(branch.fruit is not None for branch in load.branches)
    if load.fruit is not None:
        return "branches_and_tree" if counted else "tree"
    if counted:
        return "branches"
    return "none" if load.set is None else "set_class"


def _ratio(above: float, below: float) -> float | None:
    return above / below if below else None


def target_facts(concluded: Mapping[str, Value]) -> dict[str, Value]:
    """What thinning.target concluded, as the later rulesets read it."""
    return {f"target.{_TARGET_NAMES.get(name, name)}": value for name, value in concluded.items()}


def carried_facts(carried: Carried, load: Load) -> dict[str, Value]:
    """What the measures allow, and what that leaves over."""
    counted = load.counted
    facts: dict[str, Value | None] = {
        "load.allowed": carried.allowed,
        "load.bound_by": carried.bound_by,
        "load.surplus": carried.remove,
    }
    if counted is not None and carried.remove is not None:
        facts["load.surplus_share"] = carried.remove / counted if counted else 0.0
    if counted is not None and carried.allowed:
        facts["load.over_allowed"] = counted / carried.allowed
    return {name: value for name, value in facts.items() if value is not None}


def millimetres(inches: float | None) -> float | None:
    """Millimetres, as fruit sizes are published.

    >>> round(millimetres(0.75), 1)
    19.1
    """
    return None if inches is None else inches * INCH_CM * 10
