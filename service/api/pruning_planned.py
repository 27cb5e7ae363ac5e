"""The answer to the pruning question, as the document describes it."""

from __future__ import annotations

from typing import ClassVar

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, date_text, flag, list_of, month_day, nested, number, text, whole
from service.domain.pruned_tree import FORMS

VERDICTS = ("never", "wait", "now")


class PruningDaysTold(Told):
    """The days for a kind of cuts."""

    class Meta(Told.Meta):
        """`from` is a word of the language, so it cannot stand among the others."""

        include: ClassVar = {
            "from": month_day("First day; null where the place leaves none.", example="07-01", required=True,
                              nullable=True)
        }  # fmt: skip

    to = month_day("Last day.", example="08-31", required=True, nullable=True)
    opens = date_text("Date on which they open, or did, where a day was asked about.", required=True, nullable=True)
    closes = date_text("Date on which they close.", required=True, nullable=True)
    state = choice("Where the day that is asked about stands to them.", values=("open", "ahead", "past", "none"),
                   required=True, nullable=True)  # fmt: skip
    narrowed_by = list_of(
        choice("What took days off.", values=("harvest", "rain", "frost")), "What took days off.", example=["rain"],
        required=True,
    )  # fmt: skip


class PruningWhenTold(Told):
    """When the tree is pruned."""

    verdict = choice("Whether the day that is asked about is one for the main pruning.",
                     values=("not_now", "small_cuts_only", "now"), required=True, nullable=True)  # fmt: skip
    weather = choice("What the weather allows.", values=("too_wet", "too_hot", "frost_ahead", "good"), required=True,
                     nullable=True)  # fmt: skip
    main_season = choice("Season of the main pruning.",
                         values=("dry_summer", "after_frost", "late_dormant", "dormant_to_bloom"), required=True,
                         nullable=True)  # fmt: skip
    text_ = text("All of it in sentences.", example="Prune between January 1 and February 28.", longest=6000,
                 required=True)  # fmt: skip
    days = nested(PruningDaysTold, "The days for the main pruning.", required=True, nullable=True)
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class PruningAmountTold(Told):
    """How much is cut, as a number."""

    amount = text("Name of the amount.", example="share_percent", required=True)
    meaning = text("What it means.", example="share that is taken off", longest=500, required=True)
    value = number("The amount.", unit="as the unit says", example=50, required=True)
    unit = text("Its unit.", example="percent", required=True)
    of = choice("What a share is a share of.",
                values=("last_years_growth", "living_canopy", "each_shoot", "each_limb", "excess"), required=True,
                nullable=True)  # fmt: skip
    taught_from = number("Lower end of what is taught.", unit="as the unit says", example=40, required=True,
                         nullable=True)  # fmt: skip
    taught_to = number("Upper end of what is taught.", unit="as the unit says", example=60, required=True,
                       nullable=True)  # fmt: skip
    shown = text("As it stands in the plan.", example="about 50% of last year's growth (40% to 60% is taught)",
                 longest=500, required=True)  # fmt: skip


class NamedCutTold(Told):
    """A kind of cut."""

    cut = text("Id of the kind of cut.", example="fruiting_shoots", required=True)
    what = text("What is cut.", example="dead wood", required=True)
    where = text("Where it is cut.", example="back to living wood", required=True)


class PruningCheckTold(NamedCutTold):
    """A check of the growing season."""

    how_much = text("How much.", example="down to 7 ft (2.1 m)", longest=1000, required=True, nullable=True)
    amounts = nested(PruningAmountTold, "How much, as numbers.", many=True, required=True)
    season = text("Days that it belongs to.", example="early_summer", required=True, nullable=True)
    days = nested(PruningDaysTold, "Its days; null where they are not known or it is bound to none.", required=True,
                  nullable=True)  # fmt: skip


class PruningCutTold(PruningCheckTold):
    """A cut to make."""

    why = text("Why.", example="A shoot of a peach bears once.", longest=6000, required=True)
    verdict = choice("Whether it is made now; null where no day was asked about.", values=VERDICTS, example="now",
                     required=True, nullable=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class PostponedCutTold(NamedCutTold):
    """A cut to leave for now, or for good."""

    verdict = choice("Wait, or never; null where that is not known.", values=VERDICTS, example="wait", required=True,
                     nullable=True)  # fmt: skip
    season = text("Days that it belongs to.", example="main", required=True, nullable=True)
    why = text("Why.", example="Rain carries the disease into cuts.", longest=6000, required=True)
    come_back = nested(PruningDaysTold, "When to come back.", required=True, nullable=True)
    waits_for = choice("What it waits for.", values=("days", "weather"), required=True, nullable=True)
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class PruningStepTold(Told):
    """A step of the work."""

    step = whole("Its place in the order of work.", unit="count", example=1, required=True)
    cut = text("Id of the kind of cut.", example="dead_wood", required=True)
    text_ = text("What to do.", example="Take out dead wood first.", longest=6000, required=True)


class PruningWireTold(Told):
    """A wire."""

    height_in = number("Height above the ground.", unit="in", example=18, required=True)
    height_cm = number("Height above the ground.", unit="cm", example=46, required=True)


class PruningVarietyTold(Told):
    """One of several varieties on the tree."""

    variety = text("Its name as told.", example="Liberty", required=True)
    cultivar = text("Its id, where the catalogue knows it.", example="apple.liberty", required=True, nullable=True)
    cut = choice("How hard it is cut.", values=("none", "light", "usual", "hard"), required=True, nullable=True)
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class PruningYearTold(Told):
    """One year of bringing the tree down."""

    year = whole("The year; the first is 1.", unit="count", example=1, required=True)
    height_ft = number("Height to reach in it.", unit="ft", example=17, required=True)
    height_m = number("Height to reach in it.", unit="m", example=5.18, required=True)
    text_ = text("What to do in it.", example="Take out dead wood.", longest=6000, required=True)
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class PruningPlanTold(Told):
    """The plan for one tree."""

    crop = text("Id of the crop.", example="peach", required=True)
    crop_name = text("Name of the crop.", example="peach", required=True)
    cultivar = text("Id of the cultivar.", example="peach.redhaven", required=True, nullable=True)
    name = text("Its denomination.", example="Redhaven", required=True, nullable=True)
    life_stage = choice("Where the tree stands in its life.", values=("planting", "training", "bearing", "overgrown"),
                        required=True, nullable=True)  # fmt: skip
    training = choice("Form that the plan works toward.", values=FORMS, required=True, nullable=True)
    training_assumed = flag("True where the form was not told.", example=True, required=True)
    canopy_cap_percent = number("Most of the living canopy that comes off in one season.", unit="percent", example=25,
                                required=True, nullable=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the rules say of the tree as a whole.", many=True, required=True)
    when = nested(PruningWhenTold, "When it is pruned.", required=True)
    steps = nested(PruningStepTold, "The work of the day, in order.", many=True, required=True)
    cuts = nested(PruningCutTold, "The cuts to make on the day that is asked about; without a day, all of them.",
                  many=True, required=True)  # fmt: skip
    not_now = nested(PostponedCutTold, "What not to cut now, and when to come back.", many=True, required=True)
    summer_checks = nested(PruningCheckTold, "The cuts of the growing season.", many=True, required=True)
    wires = nested(PruningWireTold, "The wires for a tree on wires, from the lowest.", many=True, required=True)
    varieties = nested(PruningVarietyTold, "The varieties on a grafted tree.", many=True, required=True)
    renovation = nested(PruningYearTold, "The years of bringing an overgrown tree down.", many=True, required=True)
