"""What to take off and what to leave: from a tree and the fruit on it to a plan in steps."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar, cast

from service.api.advice import envelope
from service.api.fields import Asked, choice, flag, name_text, nested, number, whole
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.thinning_planned import ThinningPlanTold
from service.domain.crop_load import SET_CLASSES, Branch, Load, TreeSize
from service.domain.cultivar import SEASONS
from service.domain.errors import NotUnderstood
from service.domain.units import Language
from service.present.thinning import thinning_advice
from service.questions.thinning import (
    Habit,
    Moment,
    NamedVariety,
    Place,
    ThinningQuestion,
    Variety,
    find_varieties,
    plan_thinning,
)
from service.questions.thinning.cases import millimetres
from service.questions.thinning.question import STAGES

blueprint = Resource("thinning-plans", "What to take off and what to leave.")
Made = TypeVar("Made", Branch, Load, TreeSize)
_OF_VARIETY = ("cultivar", "ripening", "fruit_size", "hybrid_type", "bearing", "set", "fruit", "branches")


class BranchAsked(Asked):
    """A bearing branch; measure what you can."""

    length_in = number("Length that bears.", unit="in", example=36, low=1, high=600)
    diameter_in = number("Thickness an inch from the trunk.", unit="in", example=0.6, low=0.05, high=40)
    fruit = whole("Fruit on it.", unit="count", example=48, low=0, high=20000)
    places = whole("Places where fruit sits, each single, pair or cluster counted once.", unit="count", example=24,
                   low=0, high=20000)  # fmt: skip
    leaves = whole("Leaves on it, where it is weak or bare.", unit="count", example=200, low=0, high=100000)


class VarietyAsked(Asked):
    """A variety and the fruit on it."""

    cultivar = name_text("The cultivar by name or id.", example="Elberta")
    ripening = choice("When it ripens within its crop; taken from the catalogue where it is known there.",
                      values=SEASONS, example="early")  # fmt: skip
    fruit_size = choice("Usual size of its fruit.", values=("small", "medium", "large"), example="medium")
    hybrid_type = choice("For a plum-apricot hybrid: what it is more like.", values=("plum_like", "apricot_like"))
    bearing = choice("Whether it bears every year or every other year.", values=("annual", "alternate"))
    set = choice("How the set looks; every_cluster where fruit sits at nearly every spur.", values=SET_CLASSES,
                 example="heavy")  # fmt: skip
    fruit = whole("All fruit on it; branches beside this are a sample.", unit="count", example=500, low=0, high=200000)
    branches = nested(BranchAsked, "Measured branches.", many=True, most=100,
                      example=[{"length_in": 36, "diameter_in": 0.6, "fruit": 48}])  # fmt: skip


class ThinningAsked(VarietyAsked):
    """The thinning question; every part of it but the crop may be left out."""

    crop = name_text("The crop by name or id.", example="peach", required=True)
    age_years = whole("Summers that the tree has stood, this one included.", unit="years", example=6, low=1, high=200)
    height_ft = number("Height of the tree.", unit="ft", example=10, low=0.5, high=120)
    spread_ft = number("Width of the crown.", unit="ft", example=10, low=0.5, high=120)
    lowest_branch_ft = number("Height of the lowest branch.", unit="ft", example=2, low=0, high=60)
    trunk_girth_in = number("Girth of the trunk a foot above the graft, or just below the first branches.", unit="in",
                            example=9, low=0.1, high=300)  # fmt: skip
    vigour = choice("How it grew last year.", values=("weak", "moderate", "strong"), example="moderate")
    last_crop = choice("What it bore last year.", values=("none", "light", "normal", "heavy"), example="normal")
    split_pits = flag("True where stones split in its fruit in earlier years.", example=False)
    stage = choice("What it looks like today.", values=STAGES, example="fruit_set")
    days_after_full_bloom = whole("Days since full bloom.", unit="days", example=30, low=-60, high=330)
    fruit_diameter_in = number("Thickness of most fruit today.", unit="in", example=0.7, low=0.05, high=7)
    natural_drop = choice("Where the natural fruit drop stands.", values=("before", "during", "over"))
    frost_past = flag("True where no more frost is to be expected this spring.", example=True)
    codling_moth = flag("True where codling moth troubles the place.", example=False)
    brown_rot = flag("True where brown rot troubles the place.", example=False)
    large_fruit = flag("True where fewer and larger fruit are wanted.", example=False)
    varieties = nested(
        VarietyAsked, "Several varieties on one tree, each with its fruit.", many=True, least=1, most=20,
        example=[{"cultivar": "Redhaven", "fruit": 120}, {"cultivar": "Elberta", "fruit": 200}],
    )  # fmt: skip
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


@blueprint.route("/thinning-plans", methods=["POST"])
@blueprint.asks(ThinningAsked)
@blueprint.answers(envelope("ThinningPlan", ThinningPlanTold))
@blueprint.shows("space-early-peaches", documented=("age_years", "height_ft", "days_after_full_bloom", "branches"))
@keeps("thinning-plans")
def plan_the_thinning(asked: dict[str, Any]) -> dict[str, Any]:
    """Plan the thinning of one tree.

    Fruit is counted on branches, counted on the whole tree, or judged by how the set looks. The answer says what stays
    and what comes off, by which measure, when, and in which steps; what it assumed; and what one more measurement
    would change. Of several varieties on a tree each has a plan of its own.
    """
    house = parts()
    answer = plan_thinning(read_question(asked), rulebook=house.rulebook, asking=house.asking)
    language = cast(Language, asked.get("language") or "en")
    return thinning_advice(answer, rulebook=house.rulebook, language=language)


def read_question(asked: dict[str, Any]) -> ThinningQuestion:
    """The question in a checked request; NotUnderstood points at what is not known or contradicts itself."""
    several = asked.get("varieties")
    _refuse_both(asked)
    said = [(f"/varieties/{place}", one) for place, one in enumerate(several)] if several else [("", asked)]
    named = [NamedVariety(one.get("cultivar"), f"{at}/cultivar") for at, one in said]
    crop, cultivars = find_varieties(parts().names, asked["crop"], named)
    return ThinningQuestion(
        crop=crop,
        varieties=tuple(_variety(at, one, cultivar) for (at, one), cultivar in zip(said, cultivars, strict=True)),
        tree=_made(TreeSize, asked, at=""),
        habit=Habit(*(asked.get(name) for name in ("vigour", "last_crop", "split_pits"))),
        moment=Moment(
            days_after_full_bloom=asked.get("days_after_full_bloom"),
            stage=asked.get("stage"),
            fruit_diameter_mm=millimetres(asked.get("fruit_diameter_in")),
            natural_drop=asked.get("natural_drop"),
        ),
        place=Place(*(asked.get(name) for name in ("frost_past", "codling_moth", "brown_rot", "large_fruit"))),
    )


def _refuse_both(asked: Mapping[str, Any]) -> None:
    given = [name for name in _OF_VARIETY if asked.get(name) is not None]
    if asked.get("varieties") and given:
        raise NotUnderstood(*((f"/{name}", "With varieties, say this for each of them.") for name in given))


def _variety(at: str, asked: Mapping[str, Any], cultivar: str | None) -> Variety:
    branches = tuple(
        _made(Branch, one, at=f"{at}/branches/{place}") for place, one in enumerate(asked.get("branches") or ())
    )
    return Variety(
        cultivar=cultivar,
        **{name: asked.get(name) for name in ("ripening", "fruit_size", "hybrid_type", "bearing")},
        load=_made(Load, {**asked, "branches": branches}, at=at),
        at=at,
    )


def _made(kind: type[Made], asked: Mapping[str, Any], *, at: str) -> Made:
    """A domain value from the fields of a request that are its own; what it refuses is pointed at where it stands."""
    own = {name: asked[name] for name in kind.__dataclass_fields__ if asked.get(name) is not None}
    try:
        return kind(**own)
    except NotUnderstood as fault:
        raise NotUnderstood(*((at + pointer, detail) for pointer, detail in fault.faults)) from fault
