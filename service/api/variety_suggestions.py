"""What will fruit here? From a place and wishes to cultivars with reasons."""

from __future__ import annotations

from typing import Any, cast

from service.api.advice import envelope
from service.api.fields import Asked, choice, flag, list_of, name_text, nested, number, whole
from service.api.house import Resource, parts
from service.api.keeping import keeps
from service.api.place import PlaceAsked, read_place
from service.api.suggested import SuggestionsTold
from service.domain.cultivar import USES
from service.domain.site import Spot, Wishes
from service.domain.units import Language
from service.present.suggestion import suggestion_advice
from service.questions.suggestion import Judges, NamedTree, SuggestionQuestion, find_names, suggest

blueprint = Resource("variety-suggestions", "What will fruit here: cultivars for a place, with reasons.")
NOBODY_KNOWS = "Leave it out where nobody knows."


class SiteAsked(PlaceAsked):
    """The place. Leave out what nobody knows: unknown is never taken as zero or as yes."""

    chill_hours = number(f"Winter chill at or below 45 °F. {NOBODY_KNOWS}", unit="hours", example=800, low=0, high=4000)
    chill_portions = number(
        "Winter chill in chill portions; preferred where a need is published in portions.",
        unit="portions", example=58, low=0, high=200,
    )  # fmt: skip
    width_ft = number("Width of the ground for trees.", unit="ft", example=30, low=1, high=5000)
    depth_ft = number("Depth of the ground for trees.", unit="ft", example=20, low=1, high=5000)
    max_height_ft = number("Height that the trees should stay under.", unit="ft", example=12, low=2, high=60)
    sun_hours = number("Direct sun on a summer day.", unit="hours", example=8, low=0, high=18)
    drainage = choice("How water leaves the planting hole.", values=("good", "moderate", "poor"))
    soil_ph = number("Soil reaction.", unit="ph", example=6.5, low=3, high=11)
    replant = flag("True where fruit trees of the same kind stood in this ground before.", example=False)
    warmest_month_f = number("Mean temperature of the warmest month.", unit="°F", example=78, low=30, high=110)


class WishesAsked(Asked):
    """What the customer would like."""

    crops = list_of(name_text("A crop by name or id.", example="apple"), "Only these crops.",
                    example=["apple", "Asian pear"], most=40)  # fmt: skip
    harvest_months = list_of(whole("A month.", unit="month", example=9, low=1, high=12), "Months of harvest.",
                             example=[8, 9], most=12)  # fmt: skip
    uses = list_of(choice("A use.", values=USES), "What the fruit is for.", example=["fresh"], most=10)
    max_trees = whole("How many trees at the most.", unit="count", example=3, low=1, high=30)


class TreeAsked(Asked):
    """A tree that stands there already; crop or cultivar must be named."""

    crop = name_text("Its crop, where the cultivar is not known.", example="apple")
    cultivar = name_text("Its cultivar by name or id.", example="Liberty")
    grafted = list_of(name_text("A cultivar.", example="Freedom"), "Further cultivars on the same tree.",
                      example=["Freedom"], most=20)  # fmt: skip
    distance_ft = number("How far it stands from the new trees.", unit="ft", example=40, low=0, high=50000)


class SuggestionsAsked(Asked):
    """The variety question; every part of it may be left out."""

    site = nested(SiteAsked, "The place.")
    wishes = nested(WishesAsked, "What the customer would like.")
    existing_trees = nested(
        TreeAsked, "Trees that stand there already; an empty list says that there are none.", many=True,
        example=[{"cultivar": "Liberty", "distance_ft": 40}], most=100,
    )  # fmt: skip
    consider = list_of(
        name_text("A cultivar by name or id.", example="Honeycrisp"),
        "Cultivars that are answered for even where they do not fit.", example=["Honeycrisp"], most=20,
    )  # fmt: skip
    limit = whole("How many suggestions.", unit="count", example=12, low=1, high=50)
    set_aside_limit = whole("How many of those set aside are named.", unit="count", example=20, low=0, high=1000)
    language = choice("Language of the sentences.", values=("en", "es"))
    keep = flag("True to keep the question and its answer as a consultation.", example=False)


@blueprint.route("/variety-suggestions", methods=["POST"])
@blueprint.asks(SuggestionsAsked)
@blueprint.answers(envelope("VarietySuggestions", SuggestionsTold))
@blueprint.shows("apple-and-plum-may-yellow-in-limy-ground", {"crop": "wishes.crops"},
                 documented=("site.hardiness_zone", "site.chill_hours"), limit=1, set_aside_limit=1)  # fmt: skip
@keeps("variety-suggestions")
def suggest_varieties(asked: dict[str, Any]) -> dict[str, Any]:
    """Suggest cultivars for a place.

    The whole catalogue is judged by the rules. The answer names the cultivars that suit best, with root, size, spacing,
    pollination, harvest and reasons; a set to plant together; those set aside, with what speaks against them; and what
    could not be judged because nobody told or published it.
    """
    house = parts()
    question = read_question(asked)
    answer = suggest(question, rulebook=house.rulebook, judges=Judges(sweeping=house.sweeping, asking=house.asking))
    return suggestion_advice(
        answer,
        rulebook=house.rulebook,
        language=cast(Language, asked.get("language") or "en"),
        set_aside_limit=asked.get("set_aside_limit"),
    )


def read_question(asked: dict[str, Any]) -> SuggestionQuestion:
    """The question in a checked request; NotUnderstood points at the names that are not known."""
    wishes, trees = asked.get("wishes") or {}, asked.get("existing_trees")
    found = find_names(
        parts().names,
        crops=wishes.get("crops") or (),
        consider=asked.get("consider") or (),
        trees=None if trees is None else [_tree(tree) for tree in trees],
    )
    site, climate = read_place(asked.get("site"))
    return SuggestionQuestion(
        site=site,
        wishes=Wishes(
            crops=found.crops,
            harvest_months=tuple(dict.fromkeys(wishes.get("harvest_months") or ())),
            uses=tuple(dict.fromkeys(wishes.get("uses") or ())),
            max_trees=wishes.get("max_trees"),
        ),
        existing_trees=found.trees,
        consider=found.consider,
        climate=climate,
        limit=asked.get("limit"),
    )


def _tree(asked: dict[str, Any]) -> NamedTree:
    return NamedTree(
        crop=asked.get("crop"),
        cultivar=asked.get("cultivar"),
        grafted=tuple(asked.get("grafted") or ()),
        distance_ft=asked.get("distance_ft"),
        spot=None if asked.get("spot") is None else Spot(**asked["spot"]),
    )
