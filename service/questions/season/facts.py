"""A season question as facts, by the names of the vocabulary; what is unknown is left out."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from service.compute.crop_load.sections import diameter_of_girth
from service.compute.harvest import Window
from service.compute.phenology import Bloom, Mark
from service.compute.pruning_window import day_number, days_until
from service.domain.crop import Crop
from service.domain.season_tree import SeasonTree
from service.domain.site import Site
from service.questions.pruning.facts import known, rains_day
from service.questions.season.question import Facts, Ground
from service.questions.suggestion.place import site_facts
from service.questions.suggestion.prepared import prepare
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_AS_TOLD = (
    "cultivar", "height_ft", "canopy_ft", "shoot_length_in", "vigour", "bears", "just_planted", "to_plant", "floor",
    "fed_lawn", "crop_lost", "drip", "sprinkled", "troubles",
)  # fmt: skip
LAST_FROST = "site.last_spring_frost_day"


def tree_facts(tree: SeasonTree, rulebook: Rulebook) -> Facts:
    """What is told of the tree, and what its cultivar adds."""
    crop, girth = rulebook.catalogue.crops[tree.crop], tree.trunk_girth_in
    facts: dict[str, Value | None] = {f"tree.{name}": getattr(tree, name) for name in _AS_TOLD}
    facts.update({"crop": crop.id, "crop.kind": crop.kind, "tree.age_years": tree.summers})
    facts["tree.trunk_diameter_in"] = None if girth is None else diameter_of_girth(girth)
    facts["cultivar.ripening"] = ripening_of(tree, rulebook)
    window = harvest_of(tree, crop, rulebook)
    facts["harvest.last_day"] = None if window is None else max(window.days)
    return known(facts)


def ripening_of(tree: SeasonTree, rulebook: Rulebook) -> str | None:
    """The ripening class that was told, or that of the cultivar."""
    if tree.ripening is not None or tree.cultivar is None:
        return tree.ripening
    stated = rulebook.catalogue.cultivars[tree.cultivar].ripening
    return None if stated is None else stated.value


def harvest_of(tree: SeasonTree, crop: Crop, rulebook: Rulebook) -> Window | None:
    """The days of harvest of the cultivar, or of the ripening class that was told."""
    if tree.cultivar is not None:
        return prepare(rulebook).cultivars[tree.cultivar].harvest
    stated = None if tree.ripening is None else crop.harvest_by_season.get(tree.ripening)
    if stated is None:
        return None
    days, sources, from_memory = stated.value, stated.sources, stated.from_memory
    return Window(days.from_day, days.to_day, "ripening_class", days.place, sources, from_memory)


def place_facts(site: Site, ground: Ground, start: date) -> Facts:
    """The place and the day on which the plan begins."""
    return known(
        {
            **site_facts(site),
            "site.rain": site.rain,
            "site.rains_begin_day": rains_day(site),
            "site.region": ground.region,
            "site.district": ground.district,
            "site.coast": ground.coast,
            "site.soil": ground.soil,
            "date.day": day_number(start, southern=site.southern),
        }
    )


def bloom_facts(basis: str, bloom: Bloom | None, given: Mapping[str, Value], *, southern: bool) -> Facts:
    """Full bloom as far as it is known, and how it stands to the last spring frost."""
    if bloom is None:
        return {"bloom.basis": basis}
    day, frost = day_number(bloom.day, southern=southern), given.get(LAST_FROST)
    return known(
        {
            "bloom.basis": basis,
            "bloom.day": day,
            "bloom.spread_days": bloom.spread_days,
            "bloom.days_to_last_frost": days_until(frost, today=day) if isinstance(frost, int) else None,
        }
    )


def stage_facts(stage: str, mark: Mark, given: Mapping[str, Value], *, southern: bool) -> Facts:
    """One stage with its days."""
    first, last = (day_number(day, southern=southern) for day in (mark.first, mark.last))
    frost = given.get(LAST_FROST)
    return known(
        {
            "stage": stage,
            "stage.from_day": first,
            "stage.to_day": last,
            "stage.days_to_last_frost": days_until(frost, today=last) if isinstance(frost, int) else None,
        }
    )
