"""The schemas of a thinning plan."""

from __future__ import annotations

from typing import get_args

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, nested, number, text, whole
from service.compute.crop_load.bounds import Measure

_ACTIONS = ("wait", "leave", "thin", "remove_all")
_MEASURES = get_args(Measure)


class SaidTold(Told):
    """A sentence and the rule that says it."""

    rule = text("Id of the rule; see /v1/rules.", example="begin-at-the-trunk", required=True)
    text_ = text("The sentence.", example="Begin next to the trunk and work outward.", longest=3000, required=True)


class BoundTold(Told):
    """How many fruit one measure allows."""

    by = choice("The measure.", values=_MEASURES, example="spacing", required=True)
    fruit = whole("Fruit that it allows.", unit="count", example=6, required=True)


class ThirdsTold(Told):
    """Where the kept fruit go along a branch."""

    inner = whole("On the third next to the trunk.", unit="count", example=3, required=True)
    middle = whole("On the middle third.", unit="count", example=2, required=True)
    outer = whole("On the outer third.", unit="count", example=1, required=True)


class BranchTold(Told):
    """What stays on one branch and what comes off."""

    branch = whole("The branch, numbered as it was sent, from 1.", unit="count", example=1, required=True)
    fruit = whole("Fruit counted.", unit="count", example=48, required=True, nullable=True)
    keep = whole("Fruit that stay.", unit="count", example=6, required=True, nullable=True)
    remove = whole("Fruit that come off.", unit="count", example=42, required=True, nullable=True)
    keep_by_third = nested(ThirdsTold, "Where they stay; null without a length.", required=True, nullable=True)
    limited_by = choice("The measure that decides; tree where the whole tree allows less.", values=(*_MEASURES, "tree"),
                        example="spacing", required=True, nullable=True)  # fmt: skip
    bounds = nested(BoundTold, "What each measure allows.", many=True, required=True)
    strain = number(
        "Bending stress of the level branch under the kept fruit at picking weight, as a share of the strength of"
        " green wood.", unit="share", example=0.25, required=True, nullable=True,
    )  # fmt: skip
    support = choice("What it needs besides.", values=("none", "watch", "prop_or_tie", "thin_further"), required=True,
                     nullable=True)  # fmt: skip
    reasons = nested(ReasonTold, "Why.", many=True, required=True)


class PlanTold(Told):
    """What to do with the fruit of a tree, or of one variety on it."""

    action = choice("Wait and come back; leave all; thin; or take all off.", values=_ACTIONS, example="thin",
                    required=True, nullable=True)  # fmt: skip
    urgency = choice("How soon.", values=("now", "soon", "later", "none"), required=True, nullable=True)
    window = choice("Where the season stands to the time of thinning.", values=("not_open", "open", "closing", "past"),
                    example="open", required=True, nullable=True)  # fmt: skip
    passes = whole("Rounds in which to thin.", unit="count", example=1, required=True, nullable=True)
    spacing_in = number("Distance between fruit.", unit="in", example=6, required=True, nullable=True)
    spacing_cm = number("Distance between fruit.", unit="cm", example=15.2, required=True, nullable=True)
    spacing_from_in = number("Least distance that is published.", unit="in", example=4, required=True, nullable=True)
    spacing_from_cm = number("Least distance that is published.", unit="cm", example=10.2, required=True, nullable=True)
    spacing_to_in = number("Greatest distance that is published.", unit="in", example=8, required=True, nullable=True)
    spacing_to_cm = number("Greatest distance that is published.", unit="cm", example=20.3, required=True,
                           nullable=True)  # fmt: skip
    fruit_per_cluster = number("Fruit left where several sit together.", unit="count", example=1, required=True,
                               nullable=True)  # fmt: skip
    fruit = whole("Fruit counted.", unit="count", example=48, required=True, nullable=True)
    keep = whole("Fruit that stay; where none were counted, what the tree may carry.", unit="count", example=6,
                 required=True, nullable=True)  # fmt: skip
    remove = whole("Fruit that come off.", unit="count", example=42, required=True, nullable=True)
    share_removed = number("Share of the counted fruit that comes off.", unit="share", example=0.88, required=True,
                           nullable=True)  # fmt: skip
    usual_share_removed = number("Share that usually comes off such a set.", unit="share", example=0.8, required=True,
                                 nullable=True)  # fmt: skip
    limited_by = choice("The measure that decides; several where branches differ.", values=(*_MEASURES, "several"),
                        example="spacing", required=True, nullable=True)  # fmt: skip
    bounds = nested(BoundTold, "What each measure of the whole tree allows.", many=True, required=True)
    branches = nested(BranchTold, "Each measured branch.", many=True, required=True)
    reasons = nested(ReasonTold, "Why.", many=True, required=True)
    steps = nested(SaidTold, "What to do at the tree, in order.", many=True, required=True)
    doubts = nested(SaidTold, "What is odd about the measures.", many=True, required=True)
    assumed = nested(SaidTold, "What is taken for what nobody measured.", many=True, required=True)
    one_more_measurement = nested(SaidTold, "What to measure next and what it would change.", many=True, required=True)


class VarietyPlanTold(PlanTold):
    """The plan for one of several varieties."""

    cultivar = text("Id of the cultivar.", example="apple.liberty", required=True, nullable=True)
    name = text("Its denomination.", example="Liberty", required=True, nullable=True)


class ThinningPlanTold(PlanTold):
    """The plan; of a tree with several varieties the sums, and the plans under varieties."""

    crop = text("Id of the crop.", example="peach", required=True)
    crop_name = text("Name of the crop.", example="peach", required=True)
    varieties = nested(VarietyPlanTold, "Each of several varieties, in the order of work.", many=True, required=True)
