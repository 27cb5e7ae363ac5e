"""How the API tells a disorder: its schemas."""

from __future__ import annotations

import marshmallow as ma

from service.api.fields import Told, choice, flag, list_of, nested, text
from service.domain.disorder import (
    CONDITION_KINDS,
    DISORDER_KINDS,
    HOST_LEVELS,
    MEASURE_KINDS,
    REGULATED_STATUSES,
    STAGES,
    URGENCIES,
)
from service.knowledge.disorder_file import RECALLED

_ENGLISH = text("In English.", example="a few curled tips", longest=2000, required=True)
_SPANISH = text("In Spanish.", example="unas puntas rizadas", longest=2000, required=True)


class WordingTold(Told):
    """A phrase in two languages."""

    text, text_es = _ENGLISH, _SPANISH


class LookAlikeTold(Told):
    """Another disorder that it is taken for."""

    disorder = text("Id of the other disorder.", example="green_peach_aphid", required=True)
    check = nested(WordingTold, "What to check.", required=True)
    this_shows = nested(WordingTold, "What this disorder shows.", required=True)
    other_shows = nested(WordingTold, "What the other one shows.", required=True)
    telling = list_of(text("Id of a sign.", example="lf_thick_pucker"),
                      "Signs that speak for this disorder and not for the other.", example=["lf_thick_pucker"],
                      required=True)  # fmt: skip


class ProtocolTold(Told):
    """How a sample is taken and packed."""

    id = text("Id of the protocol.", example="leaf", required=True)
    how = nested(WordingTold, "How to take and pack it.", required=True)
    too_late = nested(WordingTold, "When it is too late.", required=True)
    sources = list_of(text("Id of a source.", example="VCE_SAMPLE"), "Who says so.", example=["VCE_SAMPLE"],
                      required=True)  # fmt: skip
    recalled = list_of(choice("A part.", values=("how", "too_late"), example="too_late"),
                       "Parts that the sources were not seen to state.", example=["too_late"],
                       required=True)  # fmt: skip


class ConditionTold(Told):
    """What favours a disorder."""

    id = text("Id of the condition.", example="cool_wet_spring", required=True)
    about = choice("What it is about.", values=CONDITION_KINDS, example="weather", required=True)
    what = nested(WordingTold, "What it is.", required=True)


class KnownMeasureTold(Told):
    """What can be done without a product."""

    id = text("Id of the measure.", example="open_canopy", required=True)
    kind = choice("Kind of measure.", values=MEASURE_KINDS, example="cultural", required=True)
    what = nested(WordingTold, "What to do.", required=True)


class DisorderTold(Told):
    """One disorder."""

    id = text("Id of the disorder.", example="peach_leaf_curl", required=True)
    name = text("Name.", example="peach leaf curl", required=True)
    name_es = text("Spanish name.", example="lepra del duraznero", required=True)
    kind = choice("Kind of cause.", values=DISORDER_KINDS, example="fungus", required=True)
    scientific_names = list_of(text("A name.", example="Taphrina deformans"), "Scientific names of what causes it.",
                               example=["Taphrina deformans"], required=True)  # fmt: skip
    hosts = ma.fields.Dict(
        values=choice("How often it is met.", values=HOST_LEVELS, example="common"),
        required=True,
        metadata={"description": "Crops that it is met on, and how often.", "examples": [{"peach": "common"}]},
    )
    uncertain_hosts = list_of(text("Id of a crop.", example="apricot"),
                              "Crops of which sources differ; only a laboratory can say.", example=["apricot"],
                              required=True)  # fmt: skip
    confused_on = ma.fields.Dict(
        values=list_of(text("Id of a disorder.", example="plum_pockets"), "What to look for.", example=[]),
        required=True,
        metadata={
            "description": "Crops that are no hosts though people often suspect it, with what to look for instead.",
            "examples": [{"japanese_plum": ["leaf_curl_plum_aphid"]}],
        },
    )
    stages = list_of(choice("A stage.", values=STAGES, example="bloom"), "Stages of the tree in which it shows.",
                     example=["bloom"], required=True)  # fmt: skip
    typical = list_of(text("Id of a sign.", example="lf_thick_pucker"), "Signs that are typical of it.",
                      example=["lf_thick_pucker"], required=True)  # fmt: skip
    sometimes = list_of(text("Id of a sign.", example="lf_drop_early"), "Signs that sometimes go with it.",
                        example=["lf_drop_early"], required=True)  # fmt: skip
    rules_out = list_of(text("Id of a sign.", example="lf_shothole"), "Signs that speak strongly against it.",
                        example=["lf_shothole"], required=True)  # fmt: skip
    look_alikes = nested(LookAlikeTold, "What it is taken for.", many=True, required=True)
    favoured_by = nested(ConditionTold, "What favours it.", many=True, required=True)
    urgency = choice("How urgent it is when confirmed.", values=URGENCIES, example="low", required=True)
    regulated = choice("Whether an authority regulates it.", values=REGULATED_STATUSES, example="none", required=True)
    do_not_move = flag("True where nothing alive may be carried away.", example=False, required=True)
    sample = nested(ProtocolTold, "How a sample is taken and packed.", required=True)
    bring = nested(WordingTold, "What to take by it.", required=True)
    measures = nested(KnownMeasureTold, "What can be done without a product.", many=True, required=True)
    sources = list_of(text("Id of a source.", example="UCIPM_PLC"), "Who says so; see /v1/sources.",
                      example=["UCIPM_PLC"], required=True)  # fmt: skip
    from_memory = flag("True when nobody saw the facts in a publication.", example=False, required=True)
    recalled = list_of(choice("A part.", values=RECALLED, example="stages"),
                       "Parts of the record that were recalled although sources were read.", example=["stages"],
                       required=True)  # fmt: skip


class DisordersTold(Told):
    """A page of disorders."""

    items = nested(DisorderTold, "The disorders, in the order of their ids.", many=True, required=True)
    next_cursor = text("Cursor of the next page; null after the last.", example="YWZ0ZXI6YXBwbGU", nullable=True,
                       required=True)  # fmt: skip
