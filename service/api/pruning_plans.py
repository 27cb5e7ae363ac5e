"""What to cut and when: from a tree, a day and a place to a plan in the order of work."""

from __future__ import annotations

from datetime import date
from typing import Any, cast

from service.api.advice import envelope
from service.api.fields import (
    Asked,
    choice,
    date_text,
    flag,
    list_of,
    name_text,
    nested,
    number,
    whole,
)
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.place import RainyPlaceAsked, pointing_below, read_place
from service.api.pruning_planned import PruningPlanTold
from service.domain.pruned_tree import FORMS, SIGNS, STAGES, VIGOURS, PrunedTree, SharedHole
from service.domain.units import Language
from service.present.pruning import pruning_advice
from service.questions.pruning import NamedPruning, PruningQuestion, WeatherAhead, find_pruned, plan_pruning

blueprint = Resource("pruning-plans", "What to cut on this tree, when, and what to leave for now.")
_OF_TREE = (
    "age_years", "height_ft", "max_height_ft", "training", "just_planted", "branched", "bears", "vigour",
    "shoot_length_in", "years_unpruned", "harvested", "stage", "fruit_wanted",
)  # fmt: skip


class PruningWeatherAsked(Asked):
    """The weather now and in the forecast."""

    wet = flag("True where it rains or the bark is wet.", example=False)
    dry_days_ahead = whole("Days without rain in the forecast.", unit="days", example=10, low=0, high=120)
    high_f = number("Highest temperature in the forecast.", unit="°F", example=88, low=-60, high=135)
    low_f = number("Lowest temperature in the forecast.", unit="°F", example=58, low=-80, high=110)


class PruningGraftedAsked(Asked):
    """One of several varieties on the tree."""

    name = name_text("Its name.", example="Liberty", required=True)
    shoot_length_in = number("Usual length of its last shoots.", unit="in", example=24, low=0.5, high=200)


class PruningSharedHoleAsked(Asked):
    """Several trees in one planting hole."""

    trees = whole("How many.", unit="count", example=3, low=2, high=12, required=True)
    gap_in = number("Distance between the trunks.", unit="in", example=18, low=1, high=240)
    heights_ft = list_of(number("Height of one.", unit="ft", example=8, low=0.5, high=120), "Height of each.",
                         example=[8, 6, 6], most=12)  # fmt: skip


class PruningAsked(Asked):
    """The pruning question; everything but the crop may be left out."""

    crop = name_text("The crop by name or id.", example="peach", required=True)
    cultivar = name_text("The cultivar by name or id; its harvest counts where cuts wait for it.",
                         example="Redhaven")  # fmt: skip
    date = date_text("The day that is asked about; left out, the plan gives the days for each cut.",
                     example="2026-02-20")  # fmt: skip
    age_years = number("Summers that the tree has stood, this one included.", unit="years", example=6, low=1, high=200)
    height_ft = number("Height of the tree.", unit="ft", example=13, low=0.5, high=120)
    max_height_ft = number("Height that it is to stay under.", unit="ft", example=9, low=1, high=60)
    training = choice("Form that it is trained to; untrained where it never was.", values=FORMS)
    just_planted = flag("True where it is being planted now or was this dormant season.", example=False)
    branched = flag("True where a new tree came with usable side branches.", example=False)
    bears = flag("True where it has begun to bear.")
    vigour = choice("How strongly it grows.", values=VIGOURS, example="strong")
    shoot_length_in = number("Usual length of last season's shoots.", unit="in", example=28, low=0, high=200)
    years_unpruned = number("Years since it was last pruned.", unit="years", example=1, low=0, high=200)
    harvested = flag("True where this season's fruit is off.", example=False)
    stage = choice("What the tree is doing.", values=STAGES)
    observations = list_of(
        choice("One thing that is seen.", values=SIGNS),
        "What is seen on the tree; an empty list says that it was looked over and nothing was found.",
        example=["dead_wood", "water_sprouts"], most=len(SIGNS),
    )  # fmt: skip
    fruit_wanted = whole("Fruit that the customer wants from it.", unit="count", example=300, low=1, high=5000)
    varieties = nested(PruningGraftedAsked, "All varieties on a grafted tree, where there are several.", many=True,
                       most=20, example=[{"name": "Liberty", "shoot_length_in": 30}])  # fmt: skip
    shared_hole = nested(PruningSharedHoleAsked, "Trees that share one planting hole.")
    site = nested(RainyPlaceAsked, "The place.")
    weather = nested(PruningWeatherAsked, "The weather.")
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


@blueprint.route("/pruning-plans", methods=["POST"])
@blueprint.asks(PruningAsked)
@blueprint.answers(envelope("PruningPlan", PruningPlanTold))
@blueprint.shows("cut-dead-wood-that-is-seen", {"tree.signs": "observations"}, documented=("date", "age_years"))
@keeps("pruning-plans")
def plan_cuts(asked: dict[str, Any]) -> dict[str, Any]:
    """Plan the pruning of one tree.

    The answer says when the tree is pruned and what the weather must be like; the cuts to make on the day that is asked
    about, in the order of work, with where, how much and why; what not to cut now and when to come back; the checks of
    summer; and, where they are asked for, wire heights, varieties on one tree and the years of bringing a tree down.
    """
    house = parts()
    answer = plan_pruning(read_question(asked), rulebook=house.rulebook, asking=house.asking)
    language = cast(Language, asked.get("language") or "en")
    return pruning_advice(answer, rulebook=house.rulebook, language=language)


def read_question(asked: dict[str, Any]) -> PruningQuestion:
    """The question in a checked request; NotUnderstood points at what cannot be."""
    site, climate = read_place(asked.get("site"))
    day = asked.get("date")
    return PruningQuestion(
        tree=_tree(asked),
        date=None if day is None else date.fromisoformat(day),
        site=site,
        climate=climate,
        weather=WeatherAhead(**(asked.get("weather") or {})),
    )


def _tree(asked: dict[str, Any]) -> PrunedTree:
    grown = [(one["name"], one.get("shoot_length_in")) for one in asked.get("varieties") or ()]
    named = NamedPruning(asked["crop"], cultivar=asked.get("cultivar"), varieties=tuple(grown))
    found = find_pruned(parts().names, named)
    signs = asked.get("observations")
    return PrunedTree(
        crop=found.crop,
        cultivar=found.cultivar,
        varieties=found.varieties,
        signs=None if signs is None else tuple(dict.fromkeys(signs)),
        shared_hole=_shared_hole(asked.get("shared_hole")),
        **{name: asked.get(name) for name in _OF_TREE},
    )


def _shared_hole(asked: dict[str, Any] | None) -> SharedHole | None:
    if asked is None:
        return None
    with pointing_below("/shared_hole"):
        heights = tuple(asked.get("heights_ft") or ())
        return SharedHole(asked["trees"], gap_in=asked.get("gap_in"), heights_ft=heights)
