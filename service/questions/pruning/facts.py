"""A pruning question as facts, by the names of the vocabulary; what is unknown is left out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from service.compute.harvest import Window
from service.compute.pruning_window import day_number, days_until
from service.compute.renovation import RenovationYear
from service.domain.crop import Crop
from service.domain.month_day import day_of_season
from service.domain.pruned_tree import GraftedVariety, PrunedTree, SharedHole
from service.domain.site import Site
from service.domain.training import TrainingForm
from service.questions.pruning.question import Facts, PruningQuestion, WeatherAhead
from service.questions.suggestion.place import site_facts
from service.reasoning.vocabulary import Value, Vocabulary

_AS_TOLD = (
    "age_years", "height_ft", "training", "just_planted", "branched", "bears", "vigour", "shoot_length_in",
    "years_unpruned", "harvested", "stage", "signs", "fruit_wanted",
)  # fmt: skip
Open = Mapping[str, Value | None]


def known(facts: Open) -> dict[str, Value]:
    """The facts that are known."""
    return {name: value for name, value in facts.items() if value is not None}


def tree_facts(tree: PrunedTree, crop: Crop) -> dict[str, Value]:
    """What is told of the tree, and what follows from it by reckoning alone."""
    facts: dict[str, Value | None] = {f"tree.{name}": getattr(tree, name) for name in _AS_TOLD}
    facts.update({"crop": crop.id, "crop.kind": crop.kind, "tree.varieties": max(1, len(tree.varieties))})
    facts["tree.height_wanted_ft"] = tree.max_height_ft
    if tree.height_ft is not None and tree.max_height_ft is not None:
        facts["tree.over_wanted_ft"] = tree.height_ft - tree.max_height_ft
        facts["tree.over_wanted_share"] = tree.height_ft / tree.max_height_ft
    return {**known(facts), **_hole_facts(tree.shared_hole)}


def shoots_for(fruit: int, *, per_shoot: float) -> int:
    """Shoots to keep for so many fruit.

    Three hundred fruit at six to a shoot (Marini 2003: fruit wanted divided by six):

    >>> shoots_for(300, per_shoot=6)
    50
    """
    return math.ceil(fruit / per_shoot)


def _hole_facts(hole: SharedHole | None) -> dict[str, Value]:
    if hole is None:
        return {}
    uneven = max(hole.heights_ft) / min(hole.heights_ft) if len(hole.heights_ft) > 1 else None
    return known(
        {"group.trees": hole.trees, "group.gap_in": hole.gap_in, "group.tallest_over_shortest": uneven}
    )


def place_facts(question: PruningQuestion, site: Site, harvest: Window | None) -> dict[str, Value]:
    """The place, the day and the weather."""
    facts: dict[str, Value | None] = {**site_facts(site), "site.rain": site.rain, **_weather(question.weather)}
    facts["site.rains_begin_day"] = rains_day(site)
    facts["harvest.last_day"] = None if harvest is None else harvest.to_day
    if question.date is not None:
        today = day_number(question.date, southern=site.southern)
        facts["date.day"] = today
        frost = facts.get("site.last_spring_frost_day")
        if isinstance(frost, int):
            facts["date.days_to_last_frost"] = days_until(frost, today=today)
    return known(facts)


def rains_day(site: Site) -> int | None:
    """The day of the season on which the rains usually begin."""
    return None if site.rains_begin is None else day_of_season(site.rains_begin, southern=site.southern)


def _weather(weather: WeatherAhead) -> dict[str, Value | None]:
    return {
        "weather.wet": weather.wet,
        "weather.dry_days_ahead": weather.dry_days_ahead,
        "weather.high_f": weather.high_f,
        "weather.low_f": weather.low_f,
    }


def form_facts(form: TrainingForm | None, vocabulary: Vocabulary) -> dict[str, Value]:
    """The usual measures of a training form."""
    if form is None:
        return {}
    measures = {f"form.{name}": stated.value for name, stated in form.measures.items()}
    return {
        name: measure.span.middle if measure.usual is None else measure.usual
        for name, measure in measures.items()
        if name in vocabulary.facts
    }


def variety_facts(varieties: Sequence[GraftedVariety]) -> tuple[Facts, ...]:
    """How each variety on the tree grows against the others.

    >>> two = (GraftedVariety("Gala", shoot_length_in=30), GraftedVariety("Braeburn", shoot_length_in=12))
    >>> [facts["variety.rank"] for facts in variety_facts(two)], variety_facts(two)[0]["variety.over_weakest"]
    (['strongest', 'weakest'], 2.5)
    """
    lengths = [one.shoot_length_in for one in varieties]
    told = [length for length in lengths if length]
    weakest = min(told, default=None) if len(told) == len(lengths) else None
    return tuple(
        known(
            {
                "variety": one.name,
                "variety.shoot_length_in": one.shoot_length_in,
                "variety.over_weakest": one.shoot_length_in / weakest if weakest and one.shoot_length_in else None,
                "variety.rank": _rank(one.shoot_length_in, told) if weakest else None,
            }
        )
        for one in varieties
    )


def year_facts(step: RenovationYear, *, years: int) -> Facts:
    """One year of bringing a tree down."""
    return {
        "renovation.year": step.year,
        "renovation.years": years,
        "renovation.place": step.place,
        "renovation.height_ft": step.height_ft,
    }


def _rank(length: float | None, all_lengths: Iterable[float]) -> str:
    in_order = sorted(all_lengths)
    if all(one == other for one, other in pairwise(in_order)):
        return "even"
    return "strongest" if length == in_order[-1] else "weakest" if length == in_order[0] else "between"
