"""How a client asks for the year of its trees, and how that is read."""

from __future__ import annotations

from datetime import date
from typing import Any

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
from service.api.house import parts
from service.api.place import RainyPlaceAsked, pointing_below, read_place
from service.domain.cultivar import SEASONS
from service.domain.errors import NotUnderstood
from service.domain.pruned_tree import VIGOURS
from service.domain.season import STAGES
from service.domain.season_tree import (
    DISTRICTS,
    FLOORS,
    SOILS,
    TROUBLES,
    NeighbourBloom,
    SeasonTree,
    SeenStage,
    Sighting,
)
from service.questions.season import Ground, NamedTree, SeasonQuestion, find_trees

_MOST_TREES = 12
_OF_GROUND = ("region", "district", "coast", "soil")
_OF_TREE = (
    "label", "ripening", "age_years", "height_ft", "canopy_ft", "trunk_girth_in", "shoot_length_in", "vigour", "bears",
    "just_planted", "to_plant", "floor", "fed_lawn", "crop_lost", "drip", "sprinkled",
)  # fmt: skip


class SeasonNeighbourAsked(Asked):
    """Full bloom of the crop at another place of the same climate, and how this place lies to it."""

    full_bloom = date_text("Day of full bloom there.", example="2026-04-02", required=True)
    north_deg = number("Degrees of latitude by which this place lies north of it; below zero to the south.",
                       unit="degrees", example=0.5, low=-10, high=10)  # fmt: skip
    east_deg = number("Degrees of longitude by which this place lies east of it; below zero to the west.",
                      unit="degrees", example=0, low=-10, high=10)  # fmt: skip
    higher_ft = number("Feet by which this place lies higher; below zero lower.", unit="ft", example=400, low=-10000,
                       high=10000)  # fmt: skip


class SeasonSeenAsked(Asked):
    """What was seen of the season; the surest is used: full bloom, then a stage, then a neighbouring place."""

    full_bloom = date_text("Day of full bloom of this tree, of this year or the last.", example="2026-03-12")
    stage = choice("Another stage that the tree was in the middle of.", values=STAGES)
    day = date_text("Day on which it was in that stage.", example="2026-05-02")
    neighbour = nested(SeasonNeighbourAsked, "Full bloom at another place of the same climate.")


class SeasonTreeAsked(Asked):
    """One tree; everything but the crop may be left out."""

    crop = name_text("The crop by name or id.", example="peach", required=True)
    cultivar = name_text("The cultivar by name or id.", example="Redhaven")
    label = name_text("What the customer calls the tree.", example="by the gate")
    ripening = choice("How early it ripens within its crop, where the cultivar is not known.", values=SEASONS)
    age_years = number("Summers that the tree has stood, this one included.", unit="years", example=4, low=1, high=200)
    height_ft = number("Height of the tree.", unit="ft", example=10, low=0.5, high=120)
    canopy_ft = number("Width of the crown.", unit="ft", example=10, low=0.5, high=60)
    trunk_girth_in = number("Girth of the trunk a foot above the ground.", unit="in", example=9, low=0.1, high=300)
    shoot_length_in = number("Usual length of last season's shoots.", unit="in", example=14, low=0, high=200)
    vigour = choice("How strongly it grows.", values=VIGOURS)
    bears = flag("True where it has begun to bear.")
    just_planted = flag("True where it was planted this dormant season.", example=False)
    to_plant = flag("True where it is still to be planted.", example=False)
    floor = choice("What covers the ground below it.", values=FLOORS, example="mulch")
    fed_lawn = flag("True where it stands in a lawn that is fed.", example=False)
    crop_lost = flag("True where the crop of this season was lost.", example=False)
    drip = flag("True where it is watered by drip.")
    sprinkled = flag("True where sprinklers wet flowers and fruit.", example=False)
    troubles = list_of(choice("One trouble.", values=TROUBLES),
                       "What troubled it in the last years; an empty list says that nothing did.",
                       example=["leaf_curl"], most=len(TROUBLES))  # fmt: skip
    seen = nested(SeasonSeenAsked, "What was seen of the season.")


class EvapotranspirationAsked(Asked):
    """Reference evapotranspiration of one month, as weather stations tell it."""

    month = whole("Month.", unit="month", example=7, low=1, high=12, required=True)
    in_a_day = number("Inches a day.", unit="in", example=0.27, low=0, high=0.8, required=True)


class SeasonPlaceAsked(RainyPlaceAsked):
    """The place. Leave out what nobody knows."""

    region = name_text("Id of a region whose usual bloom is known.", example="california_central_valley")
    district = choice("How early its district blooms within the region.", values=DISTRICTS)
    coast = flag("True where the place lies near the coast.", example=False)
    soil = choice("Texture of the soil.", values=SOILS, example="loam")
    evapotranspiration = nested(EvapotranspirationAsked, "Reference evapotranspiration by month, where it is known.",
                                many=True, most=12, example=[{"month": 7, "in_a_day": 0.27}])  # fmt: skip


class SeasonAsked(Asked):
    """The season question."""

    trees = nested(SeasonTreeAsked, "The trees.", many=True, least=1, most=_MOST_TREES, required=True,
                   example=[{"crop": "peach", "age_years": 4}])  # fmt: skip
    start = date_text("First day of the plan; today where it is left out.", example="2026-11-25")
    site = nested(SeasonPlaceAsked, "The place.")
    fertiliser_percent = number("Nitrogen in the customer's fertiliser: the first number on its bag.", unit="percent",
                                example=21, low=1, high=50)  # fmt: skip
    plan = name_text("A name that tells this plan from others in the same calendar.", example="garden-17")
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


def read_question(asked: dict[str, Any], *, today: date) -> SeasonQuestion:
    """The question in a checked request; NotUnderstood points at what cannot be."""
    place = dict(asked.get("site") or {})
    ground = _ground({name: place.pop(name, None) for name in (*_OF_GROUND, "evapotranspiration")})
    site, climate = read_place(place)
    start = asked.get("start")
    return SeasonQuestion(
        trees=_trees(asked["trees"]),
        start=today if start is None else date.fromisoformat(start),
        site=site,
        ground=ground,
        climate=climate,
        fertiliser_percent=asked.get("fertiliser_percent"),
        plan=asked.get("plan") or "",
    )


def _ground(asked: dict[str, Any]) -> Ground:
    months = asked.pop("evapotranspiration") or ()
    regions = parts().rulebook.catalogue.season.regions
    if asked["region"] is not None and asked["region"] not in regions:
        raise NotUnderstood(("/site/region", f"no region “{asked['region']}” is known here: {', '.join(regions)}"))
    return Ground(et0_in={one["month"]: one["in_a_day"] for one in months}, **asked)


def _trees(asked: list[dict[str, Any]]) -> tuple[SeasonTree, ...]:
    named = find_trees(parts().names, [NamedTree(one["crop"], one.get("cultivar")) for one in asked])
    trees = []
    for place, (one, found) in enumerate(zip(asked, named, strict=True)):
        with pointing_below(f"/trees/{place}"):
            trees.append(_tree(one, found))
    return tuple(trees)


def _tree(asked: dict[str, Any], found: NamedTree) -> SeasonTree:
    troubles = asked.get("troubles")
    return SeasonTree(
        crop=found.crop,
        cultivar=found.cultivar,
        troubles=None if troubles is None else tuple(dict.fromkeys(troubles)),
        seen=_seen(asked.get("seen") or {}),
        **{name: asked.get(name) for name in _OF_TREE},
    )


def _seen(asked: dict[str, Any]) -> Sighting:
    bloom, stage, day, neighbour = (asked.get(name) for name in ("full_bloom", "stage", "day", "neighbour"))
    if (stage is None) != (day is None):
        raise NotUnderstood(("/seen/stage" if stage else "/seen/day", "a stage and its day are told together"))
    return Sighting(
        full_bloom=None if bloom is None else date.fromisoformat(bloom),
        stage=None if stage is None or day is None else SeenStage(stage, date.fromisoformat(day)),
        neighbour=None if neighbour is None else _neighbour(neighbour),
    )


def _neighbour(asked: dict[str, Any]) -> NeighbourBloom:
    away = {name: asked.get(name) or 0.0 for name in ("north_deg", "east_deg", "higher_ft")}
    return NeighbourBloom(date.fromisoformat(asked["full_bloom"]), **away)
