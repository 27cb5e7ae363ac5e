"""The answer to the variety question, as the document describes it."""

from __future__ import annotations

from typing import ClassVar, get_args

from service.api.advice import NotJudgedTold, ReasonTold
from service.api.fields import Told, choice, flag, list_of, month_day, nested, number, text, whole
from service.compute.spacing import SpacingBasis
from service.domain.cultivar import SelfFertility

_MONTHS = list_of(whole("A month.", unit="month", example=9, low=1, high=12), "Months in which fruit is picked.",
                  example=[8, 9], required=True)  # fmt: skip


class NamedTold(Told):
    """A cultivar by name."""

    cultivar = text("Id of the cultivar.", example="apple.liberty", required=True)
    name = text("Its denomination.", example="Liberty", required=True)
    crop = text("Id of the crop.", example="apple", required=True)
    crop_name = text("Name of the crop.", example="apple", required=True)


class RootTold(Told):
    """The rootstock chosen for the place."""

    id = text("Id of the rootstock.", example="apple.g41", required=True)
    name = text("Its denomination.", example="G.41", required=True)
    reasons = nested(ReasonTold, "What speaks for and against it here.", many=True)


class HeightTold(Told):
    """Mature height in feet; an end that nobody states is null."""

    low = number("Lower end.", unit="ft", example=8, required=True, nullable=True)
    high = number("Upper end.", unit="ft", example=10, required=True, nullable=True)
    basis = choice("What it rests on.", values=("rootstock", "share_of_seedling", "crop"), required=True, nullable=True)


class HeightMetresTold(Told):
    """Mature height in metres."""

    low = number("Lower end.", unit="m", example=2.44, required=True, nullable=True)
    high = number("Upper end.", unit="m", example=3.05, required=True, nullable=True)


class PartnerTold(Told):
    """A cultivar whose pollen serves."""

    cultivar = text("Id of the cultivar.", example="apple.freedom", required=True)
    name = text("Its denomination.", example="Freedom", required=True)
    shown_by = choice("Whether the pair is proven, or merely what is usually advised.", values=("proven", "usual"),
                      required=True)  # fmt: skip


class PollinationTold(Told):
    """What the tree needs to set fruit."""

    self_fertility = choice("What its own pollen does; null where nobody states it.", values=get_args(SelfFertility),
                            required=True, nullable=True)  # fmt: skip
    basis = choice("Whom that is stated for.", values=("cultivar", "crop"), required=True, nullable=True)
    partners_needed = whole("Other cultivars that must stand near.", unit="count", example=1, required=True)
    partners = nested(PartnerTold, "The fittest partners for this place.", many=True, required=True)
    standing = nested(PartnerTold, "Partners that stand there already.", many=True, required=True)


class OtherRootTold(Told):
    """A further root that suits the place: a shop carries some roots and not others."""

    id = text("Id of the rootstock.", example="m_26", required=True)
    name = text("Its name.", example="M.26", required=True)
    spacing_ft = number("Distance between trees.", unit="ft", example=12, required=True, nullable=True)
    mature_height_ft = nested(HeightTold, "Mature height in feet.", required=True)
    reasons = nested(ReasonTold, "What speaks for it here and against it.", many=True, required=True)


class HarvestTold(Told):
    """When the fruit is picked."""

    class Meta(Told.Meta):
        """`from` is a word of the language, so it cannot stand among the others."""

        include: ClassVar = {"from": month_day("First day.", example="09-01", required=True)}

    to = month_day("Last day.", example="09-15", required=True)
    basis = choice("What the time rests on.", values=("cultivar_dates", "offset", "ripening_class"), required=True)
    place = text("Where it was noted.", example="Minnesota", longest=500, required=True, nullable=True)
    sources = list_of(text("Id of a source.", example="umn-apples"), "Who says so.", example=["umn-apples"],
                      required=True)  # fmt: skip
    from_memory = flag("True when nobody saw it in the publication.", example=False, required=True)


class SuggestionTold(NamedTold):
    """One cultivar for this place."""

    fit = whole("How well it suits, from 0 to 100.", unit="points", example=82, required=True)
    fits = flag("False where a rule sets it aside.", required=True)
    rootstock = nested(RootTold, "The root; null where the catalogue knows none.", required=True, nullable=True)
    other_rootstocks = nested(OtherRootTold, "Further roots that suit the place, the best first.", many=True,
                              required=True)  # fmt: skip
    training = text("The form that it is trained to.", example="open_centre", required=True, nullable=True)
    spacing_ft = number("Distance between trees.", unit="ft", example=8, required=True, nullable=True)
    spacing_m = number("Distance between trees.", unit="m", example=2.44, required=True, nullable=True)
    spacing_basis = choice("What the distance rests on; share_of_standard is the distance of standard trees scaled by"
                           " the size of the root.", values=get_args(SpacingBasis), required=True,
                           nullable=True)  # fmt: skip
    mature_height_ft = nested(HeightTold, "Mature height in feet.", required=True)
    mature_height_m = nested(HeightMetresTold, "Mature height in metres.", required=True)
    trees_that_fit = whole("How many the plot holds.", unit="count", example=6, required=True, nullable=True)
    years_to_bear = number("Years to the first crop.", unit="years", example=3, required=True, nullable=True)
    pollination = nested(PollinationTold, "What it needs to set fruit.", required=True)
    harvest = nested(HarvestTold, "When it is picked; null where unknown.", required=True, nullable=True)
    reasons = nested(ReasonTold, "What to do first, then why.", many=True, required=True)
    not_judged = nested(NotJudgedTold, "What nobody published or told.", many=True, required=True)
    recalled_share = number("Share of its values that nobody saw in the publication.", unit="share", example=0.25,
                            required=True, nullable=True)  # fmt: skip
    crop_wide = list_of(text("Name of a fact.", example="chill.basis"), "Figures known only of the crop as a whole.",
                        example=["chill.basis"], required=True)  # fmt: skip


class LeftOutTold(NamedTold):
    """A cultivar that does not fit."""

    reasons = nested(ReasonTold, "What sets it aside.", many=True, required=True)


class BestTold(NamedTold):
    """The fittest cultivar of a crop."""

    fit = whole("How well it suits, from 0 to 100.", unit="points", example=82, required=True)


class CropOutlookTold(Told):
    """How one crop does here."""

    crop = text("Id of the crop.", example="apple", required=True)
    crop_name = text("Name of the crop.", example="apple", required=True)
    judged = whole("Cultivars judged.", unit="count", example=120, required=True)
    fitting = whole("Cultivars that fit.", unit="count", example=80, required=True)
    best = nested(BestTold, "The fittest; null where none fits.", required=True, nullable=True)


class PlantedTold(NamedTold):
    """A tree of a planting set."""

    fit = whole("How well it suits, from 0 to 100.", unit="points", example=82, required=True)
    rootstock = nested(RootTold, "Its root.", required=True, nullable=True)
    spacing_ft = number("Distance between trees.", unit="ft", example=8, required=True, nullable=True)
    harvest = nested(HarvestTold, "When it is picked.", required=True, nullable=True)
    partners = list_of(text("Id of a cultivar.", example="apple.freedom"), "Cultivars here whose pollen serves it.",
                       example=["apple.freedom"], required=True)  # fmt: skip
    partners_shown_by = choice("Whether its partners are proven or merely usual.", values=("proven", "usual"),
                               required=True)  # fmt: skip


class PlanTold(Told):
    """A set of trees to plant together."""

    trees = nested(PlantedTold, "The trees.", many=True, required=True)
    months = _MONTHS
    points = number("How good the set is; only to be compared with the other set.", unit="points", example=71,
                    required=True)  # fmt: skip


class GivenUpTold(Told):
    """What the second set gives up against the best."""

    points = number("Points.", unit="points", example=4, required=True)
    months = list_of(whole("A month.", unit="month", example=9), "Months without harvest.", example=[9], required=True)
    trees = list_of(text("Id of a cultivar.", example="apple.liberty"), "Trees that are missing.",
                    example=["apple.liberty"], required=True)  # fmt: skip
    instead = list_of(text("Id of a cultivar.", example="apple.freedom"), "Trees that stand in their place.",
                      example=["apple.freedom"], required=True)  # fmt: skip


class SecondTold(PlanTold):
    """The second best set."""

    gives_up = nested(GivenUpTold, "What it gives up against the best.", required=True)


class PlantingTold(Told):
    """The best set and the second best."""

    best = nested(PlanTold, "The best set.", required=True)
    second = nested(SecondTold, "The second best set.", required=True, nullable=True)


class SuggestionsTold(Told):
    """Cultivars for the place."""

    suggestions = nested(SuggestionTold, "The fittest cultivars; equals take turns by crop.", many=True, required=True)
    planting_set = nested(PlantingTold, "What to plant together; null where no tree is worth it.", required=True,
                          nullable=True)  # fmt: skip
    considered = nested(SuggestionTold, "The cultivars that were asked about.", many=True, required=True)
    crops = nested(CropOutlookTold, "How each crop does here.", many=True, required=True)
    set_aside = nested(LeftOutTold, "Cultivars that do not fit.", many=True, required=True)
    set_aside_more = whole("How many more do not fit.", unit="count", example=120, required=True)
