"""What is wrong with this tree: from a complaint or signs to likely causes, those ruled out, and what to ask next."""

from __future__ import annotations

from datetime import date
from typing import Any, cast

from service.api.advice import envelope
from service.api.climate_asked import ClimateAsked
from service.api.diagnosed import DiagnosisTold
from service.api.fields import Asked, choice, date_text, flag, list_of, month_day, nested, number, text, whole
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.place import pointing_below, read_place
from service.domain.disorder import STAGES
from service.domain.sick_tree import (
    BEARINGS,
    BLOOM_AMOUNTS,
    FEEDINGS,
    LAST_CROPS,
    PRUNINGS,
    SIZES,
    VIGOURS,
    WATERINGS,
    BloomTold,
    Care,
    InsectHeat,
    RecentWeather,
    Seen,
    SickTree,
    WetPeriod,
)
from service.domain.site import StandingTree
from service.domain.units import Language
from service.present.diagnosis import diagnosis_advice
from service.questions.diagnosis import DiagnosisQuestion, NamedDiagnosis, diagnose, find_diagnosed
from service.questions.suggestion import Judges, NamedTree, find_names

blueprint = Resource("diagnoses", "What is wrong with a tree, how sure that is, and what to look at next.")
_OF_TREE = ("age_years", "size", "vigour", "last_crop", "bearing", "stage")


class SignsAsked(Asked):
    """What was looked at; each sign by its id, as /v1/signs lists them."""

    present = list_of(
        text("A sign.", example="lf_curl_tight", longest=60), "Signs that are there.",
        example=["lf_curl_tight", "lf_aphids_in_curl"], most=100,
    )  # fmt: skip
    absent = list_of(
        text("A sign.", example="lf_thick_pucker", longest=60), "Signs that were looked for and are not there.",
        example=["lf_thick_pucker"], most=100,
    )  # fmt: skip
    cannot_tell = list_of(
        text("A sign.", example="fr_bladder", longest=60),
        "Signs that nobody can look at now; they are not asked for again.", example=["fr_bladder"], most=300,
    )  # fmt: skip


class WetPeriodAsked(Asked):
    """A time during which leaves or blossom stayed wet."""

    stage = choice("What the tree was doing.", values=STAGES, example="bloom", required=True)
    hours = number("How long they stayed wet.", unit="hours", example=14, low=0, high=500, required=True)
    mean_f = number("Mean temperature meanwhile.", unit="°F", example=52, low=-20, high=120, required=True)
    rain_in = number("Rain meanwhile.", unit="in", example=0.3, low=0, high=40)


class InsectHeatAsked(Asked):
    """The heat that an insect has had; degree days, or the day from which they are counted."""

    disorder = text("The insect by the id of its disorder.", example="codling_moth", longest=60, required=True)
    degree_days = number("Degree days so far, between the thresholds of the insect, in °F.", unit="°F days",
                           example=310, low=0, high=10000)  # fmt: skip
    since = date_text("The day from which they are counted; needs `date`, and daily temperatures in `site.climate`.",
                      example="2026-04-28")  # fmt: skip


class DiagnosisWeatherAsked(Asked):
    """The weather of this season and of the winter before. Leave out what nobody knows."""

    wet_spring = flag("True where it rained often from bud swell to petal fall.")
    hail = flag("True where hail fell this season.", example=False)
    drought = flag("True where weeks passed without rain or watering.", example=False)
    waterlogged = flag("True where water stood about the roots.", example=False)
    rain_near_harvest = flag("True where heavy rain fell on ripening fruit.", example=False)
    high_wind = flag("True where a storm passed.", example=False)
    high_f = number("Highest temperature of the last weeks.", unit="°F", example=88, low=-60, high=135)
    winter_low_f = number("Lowest temperature of the last winter.", unit="°F", example=12, low=-80, high=80)
    wet_periods = nested(WetPeriodAsked, "Wet spells of this spring.", many=True, most=60)
    insect_heat = nested(InsectHeatAsked, "Degree days of insects.", many=True, most=20)


class DiagnosisBloomAsked(Asked):
    """How bloom went this spring."""

    frost = flag("True where frost fell on swollen buds, blossom or young fruit.", example=False)
    low_f = number("Lowest temperature from bud swell to small fruit.", unit="°F", example=31, low=-40, high=80)
    amount = choice("How the tree bloomed.", values=BLOOM_AMOUNTS, example="full")
    bees = flag("True where bees were seen at work.")
    cold_or_wet = flag("True where bloom was cold, wet or windy.", example=False)
    full_bloom = date_text("Day of full bloom this spring; with daily temperatures in `site.climate` it gives `low_f`.",
                           example="2026-03-28")  # fmt: skip


class CareAsked(Asked):
    """How the tree is kept."""

    watering = choice("How it is watered.", values=WATERINGS, example="usual")
    feeding = choice("How it is fed.", values=FEEDINGS, example="usual")
    pruning = choice("How hard it was pruned in the last year.", values=PRUNINGS, example="light")
    weedkiller = flag("True where weedkiller was used near it within a year.", example=False)
    sprayed = flag("True where it was sprayed with anything in the last month.", example=False)
    grass_to_trunk = flag("True where grass grows up to the trunk.", example=False)
    dormant_spray = flag("True where it had its winter spray.", example=False)
    overhead_water = flag("True where sprinklers wet its leaves or its trunk.", example=False)
    thinned = flag("True where small fruit was taken off, this year or last, so that the rest could size.")


class SickPlaceAsked(Asked):
    """The place. Leave out what nobody knows."""

    hardiness_zone = text(
        "Hardiness zone; a zone without a letter is read as its colder half.", example="7b", longest=3,
        pattern=r"(0?[0-9]|1[0-3])[abAB]?", wants="This must be a hardiness zone such as 7b.",
    )  # fmt: skip
    latitude = number("Latitude; below zero is south of the equator.", unit="degrees", example=36.1, low=-66, high=66)
    chill_hours = number("Winter chill at or below 45 °F.", unit="hours", example=800, low=0, high=4000)
    chill_portions = number("Winter chill in chill portions.", unit="portions", example=58, low=0, high=200)
    last_spring_frost = month_day("Usual date of the last spring frost.", example="04-10")
    first_autumn_frost = month_day("Usual date of the first autumn frost.", example="10-28")
    sun_hours = number("Direct sun on a summer day.", unit="hours", example=8, low=0, high=18)
    drainage = choice("How water leaves the ground.", values=("good", "moderate", "poor"))
    soil_ph = number("Soil reaction.", unit="ph", example=6.5, low=3, high=11)
    replant = flag("True where fruit trees of the same kind stood in this ground before.", example=False)
    summer = choice("Character of the growing season.", values=("dry", "humid"), example="humid")
    climate = nested(ClimateAsked, "Temperatures of the place; they fill in chill, zone and frost where nobody said.")


class NeighbourAsked(Asked):
    """A tree that stands near; crop or cultivar must be named."""

    crop = text("Its crop, where the cultivar is not known.", example="apple", longest=100)
    cultivar = text("Its cultivar by name or id.", example="Liberty", longest=100)
    distance_ft = number("How far off it stands.", unit="ft", example=40, low=0, high=50000)


class DiagnosisAsked(Asked):
    """The diagnosis question; everything but the crop may be left out."""

    crop = text("The crop by name or id.", example="japanese_plum", longest=100, required=True)
    cultivar = text("The cultivar by name or id.", example="Methley", longest=100)
    signs = nested(SignsAsked, "What is seen.")
    complaint = text("Id of the complaint that the customer agreed to; `reading` offers them.",
                     example="curled_plum", longest=60)  # fmt: skip
    words = text("The complaint in the customer's own words, English or Spanish; read and offered back.",
                 example="leaves are curled up and sticky", longest=500)  # fmt: skip
    suspected = list_of(text("A disorder by id.", example="peach_leaf_curl", longest=60),
                        "Disorders that somebody has named, answered for in any case.", example=["peach_leaf_curl"],
                        most=10)  # fmt: skip
    stage = choice("What the tree is doing now.", values=STAGES, example="shoot_growth")
    date = date_text("Today, or the day that is asked about.", example="2026-05-02")
    age_years = whole("Summers that the tree has stood, this one included.", unit="years", example=4, low=1, high=200)
    size = choice("How large it grows on its rootstock.", values=SIZES, example="semi_dwarf")
    vigour = choice("How it grew last year.", values=VIGOURS, example="moderate")
    last_crop = choice("What it bore last year.", values=LAST_CROPS, example="normal")
    bearing = choice("Whether it bears every year or every other year.", values=BEARINGS)
    weather = nested(DiagnosisWeatherAsked, "The weather.")
    bloom = nested(DiagnosisBloomAsked, "How bloom went.")
    care = nested(CareAsked, "How the tree is kept.")
    site = nested(SickPlaceAsked, "The place.")
    state = text("The state, by its two letters: states regulate different pests.", example="WA", longest=2,
                 pattern="[A-Z]{2}", wants="This must be the two capital letters of a state, such as WA.")  # fmt: skip
    existing_trees = nested(
        NeighbourAsked, "Other trees near it; an empty list says that there are none.", many=True, most=100,
        example=[{"cultivar": "Methley", "distance_ft": 30}],
    )  # fmt: skip
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


@blueprint.route("/diagnoses", methods=["POST"])
@blueprint.asks(DiagnosisAsked)
@blueprint.answers(envelope("Diagnosis", DiagnosisTold))
@blueprint.shows("plum-is-no-host-of-peach-leaf-curl", {"disorder": "suspected"},
                 documented=("signs.present", "signs.absent"))  # fmt: skip
@keeps("diagnoses")
def diagnose_tree(asked: dict[str, Any]) -> dict[str, Any]:
    """Diagnose one tree.

    Disease, insect, animal, nutrient, weather and care are weighed together. The answer names the likeliest causes with
    what speaks for and against each; those ruled out, with the reason, first those that people take for them; the signs
    worth looking at next and what each answer would mean; what tells the two likeliest apart; and what to bring, and
    to whom. A dialogue keeps nothing here: send all that is known so far each time. Words are read and offered back
    under `reading`; they count for nothing until they come back as a complaint or as signs.
    """
    house = parts()
    judges = Judges(sweeping=house.sweeping, asking=house.asking)
    answer = diagnose(read_question(asked), rulebook=house.rulebook, judges=judges)
    return diagnosis_advice(
        answer, rulebook=house.rulebook, language=cast(Language, asked.get("language") or "en")
    )


def read_question(asked: dict[str, Any]) -> DiagnosisQuestion:
    """The question in a checked request; NotUnderstood points at what is not known or contradicts itself."""
    crop, cultivar = _names(asked)
    site, climate = read_place(asked.get("site"))
    day = asked.get("date")
    return DiagnosisQuestion(
        tree=_tree(asked, crop, cultivar),
        complaint=asked.get("complaint"),
        words=asked.get("words"),
        suspected=tuple(dict.fromkeys(asked.get("suspected") or ())),
        date=None if day is None else date.fromisoformat(day),
        site=site,
        climate=climate,
        existing_trees=_neighbours(asked.get("existing_trees")),
        state=asked.get("state"),
    )


def _names(asked: dict[str, Any]) -> tuple[str, str | None]:
    signs = {name: given for name, given in (asked.get("signs") or {}).items() if given is not None}
    named = NamedDiagnosis(
        asked["crop"],
        cultivar=asked.get("cultivar"),
        complaint=asked.get("complaint"),
        suspected=asked.get("suspected") or (),
        insects=[one["disorder"] for one in (asked.get("weather") or {}).get("insect_heat") or ()],
        signs=signs,
    )
    return find_diagnosed(parts().names, parts().rulebook.catalogue, named)


def _tree(asked: dict[str, Any], crop: str, cultivar: str | None) -> SickTree:
    with pointing_below("/signs"):
        seen = Seen(**{name: tuple(dict.fromkeys(given or ())) for name, given in (asked.get("signs") or {}).items()})
    return SickTree(
        crop=crop,
        cultivar=cultivar,
        seen=seen,
        weather=_weather(asked.get("weather") or {}),
        bloom=_bloom(asked.get("bloom") or {}),
        care=Care(**(asked.get("care") or {})),
        **{name: asked.get(name) for name in _OF_TREE},
    )


def _weather(asked: dict[str, Any]) -> RecentWeather:
    told = dict(asked)
    wet, heat = told.pop("wet_periods", None) or (), told.pop("insect_heat", None) or ()
    return RecentWeather(
        **told,
        wet_periods=tuple(WetPeriod(**period) for period in wet),
        insect_heat=tuple(_heat(one) for one in heat),
    )


def _bloom(asked: dict[str, Any]) -> BloomTold:
    day = asked.get("full_bloom")
    return BloomTold(**{**asked, "full_bloom": None if day is None else date.fromisoformat(day)})


def _heat(asked: dict[str, Any]) -> InsectHeat:
    since = asked.get("since")
    day = None if since is None else date.fromisoformat(since)
    return InsectHeat(asked["disorder"], f_days=asked.get("degree_days"), since=day)


def _neighbours(asked: list[dict[str, Any]] | None) -> tuple[StandingTree, ...] | None:
    trees = None if asked is None else [NamedTree(**tree) for tree in asked]
    return find_names(parts().names, crops=(), consider=(), trees=trees).trees
