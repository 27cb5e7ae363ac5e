"""The envelope of every answer to a question, as the document describes it."""

from __future__ import annotations

import marshmallow as ma

from service.api.fields import Told, choice, flag, list_of, nested, text, whole
from service.api.stated import anything
from service.reasoning.rule import OUTCOMES


class FactTold(Told):
    """A fact that a conclusion rests on."""

    fact = text("Name of the fact.", example="site.chill_hours", required=True)
    value = anything("Its value; null where it is unknown.", example=800, required=True, nullable=True)
    unit = text("Unit of the value.", example="hours", nullable=True, required=True)
    shown = text("The value as a person reads it.", example="800 hours", longest=2000, required=True)
    meaning = text("What the fact means.", example="winter chill of the place", longest=1000, required=True)


class CitedTold(Told):
    """Who says so."""

    id = text("Id of the source.", example="umn-apples", required=True)
    title = text("Title.", example="Growing apples in the home garden", longest=1000, required=True)
    publisher = text("Publisher.", example="University extension", longest=500, required=True)
    year = whole("Year of publication.", unit="year", example=2019, nullable=True, required=True)
    url = text("Where it is found.", example="https://doi.org/10.1000/1", longest=1000, nullable=True, required=True)
    where = text("Page or table.", example="table 2", longest=1000, required=True)
    from_memory = flag("True when nobody saw it in the publication.", example=False, required=True)


class ConclusionTold(Told):
    """What one rule concludes, why, and on whose authority."""

    rule = text("Id of the rule; see /v1/rules.", example="mark-down-where-chill-hours-are-short", required=True)
    about = text("Id of what it is about; null for the answer as a whole.", example="apple.honeycrisp", nullable=True,
                 required=True)  # fmt: skip
    outcome = choice("What it does.", values=OUTCOMES, example="mark_down", required=True)
    points = whole("Points that it gives or takes.", unit="points", example=-20, required=True)
    text_ = text("The sentence for the customer.", example="Expect light crops after mild winters.", longest=3000,
                required=True)  # fmt: skip
    why = text("The reason behind it.", example="Buds wake unevenly.", longest=3000, required=True)
    facts = nested(FactTold, "The facts that the rule tested.", many=True, required=True)
    sources = nested(CitedTold, "Who says so.", many=True, required=True)
    basis = text("What it rests on besides sources.", example="common practice", nullable=True, required=True)
    cautions = list_of(text("Id of a caution.", example="ladder-footing"), "Cautions that belong to it.",
                       example=["ladder-footing"], required=True)  # fmt: skip


class CautionTold(Told):
    """A caution that must be seen with the answer."""

    id = text("Id of the caution.", example="ladder-footing", required=True)
    text_ = text("The caution.", example="Set the ladder on firm, level ground.", longest=2000, required=True)


class NotJudgedTold(Told):
    """A fact that nobody knows and that would have been judged."""

    fact = text("Name of the fact.", example="site.soil_ph", required=True)
    meaning = text("What it means.", example="soil reaction", longest=1000, required=True)
    needs = text("What would make it known.", example="the pH of the soil", longest=1000, nullable=True, required=True)


class ReasonTold(Told):
    """A conclusion in short; the whole stands under conclusions."""

    rule = text("Id of the rule.", example="mark-down-where-chill-hours-are-short", required=True)
    outcome = choice("What it does.", values=OUTCOMES, example="mark_down", required=True)
    text_ = text("The sentence for the customer.", example="Expect light crops after mild winters.", longest=3000,
                required=True)  # fmt: skip


class EnvelopeTold(Told):
    """What every answer holds besides the answer itself."""

    rulebook = text("Digest of the rulebook that answered.", example="9f8e7d", required=True)
    conclusions = nested(ConclusionTold, "What the rules conclude, in their order.", many=True, required=True)
    cautions = nested(CautionTold, "Cautions that must be seen with the answer.", many=True, required=True)
    not_judged = nested(NotJudgedTold, "What could not be judged.", many=True, required=True)
    consultation = text("Id of the kept consultation, where it was kept.", example="60a70913bcc04df48aa24f28a6a297b2")


def envelope(name: str, answer: type[ma.Schema]) -> type[ma.Schema]:
    """The envelope schema around the schema of one answer."""
    fields = {"answer": nested(answer, "The answer.", required=True)}
    return type(f"{name}Advice", (EnvelopeTold,), {"__doc__": "An answer with its reasons.", **fields})
