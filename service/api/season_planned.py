"""The answer to the season question, as the document describes it."""

from __future__ import annotations

from typing import ClassVar

import marshmallow as ma

from service.api.advice import ReasonTold
from service.api.fields import Told, choice, date_text, list_of, nested, number, text, whole
from service.domain.season import STAGES, TASK_KINDS

BLOOM_BASES = ("observed", "stage", "neighbour", "last_year", "region", "none")


class SeasonBloomTold(Told):
    """Full bloom, as the plan takes it."""

    basis = choice("What it rests on.", values=BLOOM_BASES, example="region", required=True)
    date = date_text("Its day; null where nobody can tell.", example="2027-03-03", required=True, nullable=True)
    spread_days = whole("Days by which it may come earlier or later.", unit="days", example=11, required=True,
                        nullable=True)  # fmt: skip


class SeasonDaysTold(Told):
    """The days of a stage or a task."""

    class Meta(Told.Meta):
        """`from` is a word of the language, so it cannot stand among the others."""

        include: ClassVar = {"from": date_text("First day.", example="2027-03-22", required=True)}

    to = date_text("Last day.", example="2027-05-16", required=True)
    earliest = date_text("Day on which it may begin at the earliest.", example="2027-03-11", required=True)
    latest = date_text("Day on which it may end at the latest.", example="2027-05-27", required=True)
    basis = choice("Whether the days rest on what was seen, on an estimate of bloom, or on the calendar.",
                   values=("observed", "estimated", "calendar"), example="estimated", required=True)  # fmt: skip
    spread_days = whole("Days by which they may come earlier or later.", unit="days", example=11, required=True)


def _kill(share: str, unit: str, example: float) -> ma.fields.Field[float]:
    return number(f"Temperature of which half an hour kills {share} at this stage.", unit=unit, example=example,
                  required=True, nullable=True)  # fmt: skip


class SeasonStageTold(SeasonDaysTold):
    """A stage of the tree."""

    stage = choice("Stage.", values=STAGES, example="bloom", required=True)
    name = text("Its name.", example="bloom", required=True)
    kill_10_percent_f = _kill("one bud in ten", "°F", 27)
    kill_10_percent_c = _kill("one bud in ten", "°C", -2.8)
    kill_90_percent_f = _kill("nine buds in ten", "°F", 24)
    kill_90_percent_c = _kill("nine buds in ten", "°C", -4.4)
    frost_risk = choice("How frost threatens it.", values=("likely", "possible", "past"), required=True, nullable=True)
    reasons = nested(ReasonTold, "What the rules say of frost.", many=True, required=True)


class _DescribedTold(Told):
    """What a task is."""

    task = text("Id of the task.", example="thin_main", required=True)
    kind = choice("The part of the work.", values=TASK_KINDS, example="thinning", required=True)
    kind_name = text("The same in words.", example="thinning", required=True)
    what = text("What it is called.", example="Main thinning", required=True)
    standing = choice("Whether to do it, to do it only where the trouble shows, or to leave it alone.",
                      values=("do_not", "do", "if_seen"), example="do", required=True)  # fmt: skip
    every_days = whole("Days after which it is done again.", unit="days", example=7, required=True, nullable=True)
    text_ = text("How it is done.", example="Leave one fruit to a hand.", longest=6000, required=True)
    why = text("Why.", example="What stays grows larger.", longest=6000, required=True)
    cautions = list_of(text("A caution.", example="Set the ladder on firm ground.", longest=2000),
                       "What to beware of.", example=[], required=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class SeasonTaskTold(_DescribedTold, SeasonDaysTold):
    """A task with its days."""

    class Meta(SeasonDaysTold.Meta):
        """As for the days."""

    uid = text("Id of the task in a calendar; the same whenever the same plan is asked for again.",
               example="6f1c2f0e-6a0c-5b1e-9a62-0d6f4a0d6c1b", required=True)  # fmt: skip


class UndatedTaskTold(_DescribedTold):
    """A task whose days hang on a stage that nobody can date."""


class SeasonNitrogenTold(Told):
    """Actual nitrogen for the tree."""

    year_oz = number("For the year.", unit="oz", example=4, required=True)
    year_g = whole("For the year.", unit="g", example=113, required=True)
    doses = whole("Doses over which it is spread.", unit="count", example=2, required=True)
    dose_oz = number("For each dose.", unit="oz", example=2, required=True)
    dose_g = whole("For each dose.", unit="g", example=57, required=True)
    product_oz = number("Weight of the customer's fertiliser for each dose.", unit="oz", example=4.3, required=True,
                        nullable=True)  # fmt: skip
    product_g = whole("The same.", unit="g", example=122, required=True, nullable=True)
    limited_by = choice("What sets the amount.", values=("first_year", "age", "trunk", "cap"), example="age",
                        required=True)  # fmt: skip


class SeasonWaterTold(Told):
    """Water in one month."""

    month = text("Month.", example="2027-07", required=True)
    gallons_a_day = number("What the tree draws in a day.", unit="gal", example=12, required=True)
    litres_a_day = number("The same.", unit="L", example=45.4, required=True)
    gallons_each_time = number("Water for each watering, where the rules say how often.", unit="gal", example=120,
                               required=True, nullable=True)  # fmt: skip
    litres_each_time = number("The same.", unit="L", example=454, required=True, nullable=True)
    basis = choice("What it rests on.", values=("given", "temperatures", "young_tree"), example="temperatures",
                   required=True)  # fmt: skip
    level = choice("How much the month asks for.", values=("little", "usual", "most"), example="most", required=True,
                   nullable=True)  # fmt: skip
    reasons = nested(ReasonTold, "What the rules say.", many=True, required=True)


class SeasonTreeTold(Told):
    """The year of one tree."""

    tree = text("What tells it from the others: its label, else its cultivar or crop.", example="by the gate",
                longest=200, required=True)  # fmt: skip
    named = text("How it is called.", example="by the gate", longest=200, required=True)
    crop = text("Id of the crop.", example="peach", required=True)
    crop_name = text("Name of the crop.", example="peach", required=True)
    cultivar = text("Id of the cultivar.", example="peach.redhaven", required=True, nullable=True)
    name = text("Name of the cultivar.", example="Redhaven", required=True, nullable=True)
    bloom = nested(SeasonBloomTold, "Full bloom.", required=True)
    reasons = nested(ReasonTold, "What the rules say of the tree, and what they assume.", many=True, required=True)
    stages = nested(SeasonStageTold, "The stages of these months by date.", many=True, required=True)
    tasks = nested(SeasonTaskTold, "The tasks of these months by date.", many=True, required=True)
    undated = nested(UndatedTaskTold, "Tasks that wait for a date of bloom.", many=True, required=True)
    nitrogen = nested(SeasonNitrogenTold, "Nitrogen for the year; null where none is given or nothing is known.",
                      required=True, nullable=True)  # fmt: skip
    water = nested(SeasonWaterTold, "Water by month, where it can be reckoned.", many=True, required=True)


class SeasonPlanTold(Told):
    """The plan of twelve months."""

    class Meta(Told.Meta):
        """`from` is a word of the language."""

        include: ClassVar = {"from": date_text("First day of the plan.", example="2026-11-25", required=True)}

    to = date_text("Last day of the plan.", example="2027-11-24", required=True)
    language = choice("Language of the sentences.", values=("en", "es"), required=True)
    plan = text("Name of the plan, where one was given.", example="garden-17", longest=200, required=True,
                nullable=True)  # fmt: skip
    trees = nested(SeasonTreeTold, "The trees in the order in which they were told.", many=True, required=True)
