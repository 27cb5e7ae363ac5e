"""Schemas of values with provenance: one for each kind of value."""

from __future__ import annotations

from typing import Any, Unpack, get_args

import marshmallow as ma

from service.api.fields import Options, Told, choice, flag, list_of, nested, number, text, whole
from service.domain.cultivar import ChillModel

_MODELS: tuple[ChillModel, ...] = get_args(ChillModel)


def anything(description: str, *, example: Any, **options: Unpack[Options]) -> ma.fields.Raw:
    """A value whose form depends on what it is a value of."""
    required = options.get("required", False)
    return ma.fields.Raw(
        required=required,
        allow_none=options.get("nullable", not required),
        metadata={"description": description, "examples": [example]},
    )


class ProvenanceTold(Told):
    """Who says so, and how sure we may be."""

    unit = text("Unit of the value, where it is a quantity.", example="ft", nullable=True, required=True)
    sources = list_of(
        text("Id of a source.", example="umn-apples"),
        "Ids of the sources that state the value; see /v1/sources.",
        example=["umn-apples"],
        required=True,
    )
    from_memory = flag("True when nobody saw the value in the publication.", example=False, required=True)
    basis = choice(
        "Whom the statement is about; crop means that only a crop-wide figure is known.",
        values=("cultivar", "rootstock", "crop"),
        required=True,
    )
    note = text("What must be known with it.", example="Chance of a lower figure.", longest=5000)


class OtherTold(ProvenanceTold):
    """What another source says instead."""

    value = anything("The value that the other source states.", example=800, required=True)
    others = list_of(anything("Never used here.", example=None), "Always empty.", example=[])


class SpanTold(Told):
    """A closed range; an end that no source gives is null."""

    low = number("Lower end, in the unit of the value.", unit="as the value says", example=10)
    high = number("Upper end, in the unit of the value.", unit="as the value says", example=15)


class ChillNeedTold(Told):
    """Winter chill that is asked for."""

    amount = nested(SpanTold, "How much.", required=True)
    model = choice("In which of the published counts it is stated.", values=_MODELS, required=True)
    as_stated = text("The words of the source.", example="700 to 1000 hours", longest=1000)


class HarvestTimeTold(Told):
    """When the fruit is picked, on the northern hemisphere."""

    from_day = whole(
        "First day, counted from 1 January.", unit="day_of_year", example=244, low=1, high=366, required=True
    )
    to_day = whole("Last day, counted from 1 January.", unit="day_of_year", example=253, low=1, high=366, required=True)
    place = text("Where the time was noted.", example="Minnesota")
    as_stated = text("The words of the source.", example="early September", longest=1000, required=True)


class OffsetTold(Told):
    """Days after (before, if negative) another cultivar of the crop."""

    days = number("How many days.", unit="days", example=-7, required=True)
    to_days = number("The far end, where a range is given.", unit="days", example=-3)
    reference = text("The cultivar that the days count from.", example="peach.elberta", required=True)


class AllelesTold(Told):
    """S-alleles of a tree."""

    alleles = list_of(text("One allele.", example="S3"), "The alleles.", example=["S3", "S4"], required=True)
    notation = text("Whose way of naming alleles.", example="numbered", required=True)


class StatedSpan(ProvenanceTold):
    """A range with provenance."""

    value = nested(SpanTold, "The range.", required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedChill(ProvenanceTold):
    """A chill need with provenance."""

    value = nested(ChillNeedTold, "The need.", required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedHarvest(ProvenanceTold):
    """A time of harvest with provenance."""

    value = nested(HarvestTimeTold, "The time.", required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedOffset(ProvenanceTold):
    """A distance in days from another cultivar, with provenance."""

    value = nested(OffsetTold, "The distance.", required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedAlleles(ProvenanceTold):
    """S-alleles with provenance."""

    value = nested(AllelesTold, "The alleles.", required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedText(ProvenanceTold):
    """A word or a remark with provenance."""

    value = text("The word or remark.", example="resistant", longest=5000, required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedNumber(ProvenanceTold):
    """A number with provenance."""

    value = number("The number, in the unit beside it.", unit="as the value says", example=3, required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


class StatedList(ProvenanceTold):
    """Words with provenance."""

    value = list_of(text("One word.", example="fresh"), "The words.", example=["fresh", "storage"], required=True)
    others = nested(OtherTold, "What other sources say.", many=True, required=True)


def stated(schema: type[ProvenanceTold], description: str) -> ma.fields.Nested:
    """A field that holds a value with provenance, or null when nobody knows it."""
    return nested(schema, description + " Null when unknown.", nullable=True, required=True)


def stated_by(schema: type[ProvenanceTold], description: str, *, key: str) -> ma.fields.Dict:
    """A field that holds values with provenance by a word, such as the size of the tree."""
    return ma.fields.Dict(
        values=ma.fields.Nested(schema, metadata={"description": description}),
        required=True,
        metadata={"description": description, "examples": [{key: None}]},
    )
