"""The values that only fruit trees have, as the files write them: chill, S-alleles, harvest times, offsets in days."""

from __future__ import annotations

import re
from typing import cast, get_args

from service.domain.cultivar import ChillModel, ChillNeed, HarvestTime, Offset, SGenotype
from service.domain.month_day import day_of_season, read_month_day
from service.knowledge.entry import Entry
from service.knowledge.stated import SPAN, Form, read_span

_HOUR_MODELS = tuple(model for model in get_args(ChillModel) if model != "portions")
_NOTATIONS = ("numbered", "lettered_1994")
_ALLELE = re.compile(r"S(\d+('|sm)?|[a-z])\Z")
_PLOIDIES = (2, 3, 4, 6)


def _read_chill(entry: Entry) -> ChillNeed:
    model = cast(ChillModel, entry.choice("model", _HOUR_MODELS))
    return ChillNeed(read_span(entry), model, entry.optional_text("as_stated"))


def _read_portions(entry: Entry) -> ChillNeed:
    return ChillNeed(read_span(entry), "portions", entry.optional_text("as_stated"))


def _read_genotype(entry: Entry) -> SGenotype:
    alleles = entry.texts("alleles")
    for allele in alleles:
        if not _ALLELE.match(allele):
            entry.fail(f"“{allele}” is not an S-allele; write S3, S4' for a working mutant, or Sf", "alleles")
    notation = entry.choice("notation", _NOTATIONS) if "notation" in entry.mapping else "numbered"
    return SGenotype(alleles, notation) if alleles else entry.fail("the key “alleles” is missing")


def _read_ploidy(entry: Entry) -> int:
    sets = entry.whole("value")
    return sets if sets in _PLOIDIES else entry.fail(f"a ploidy is one of {_PLOIDIES}", "value")


def _read_harvest(entry: Entry) -> HarvestTime:
    from_day, to_day = _day(entry, "from"), _day(entry, "to")
    if to_day < from_day:
        entry.fail("a harvest runs from its first to its last day within one year", "to")
    return HarvestTime(from_day, to_day, entry.optional_text("place"), entry.optional_text("as_stated") or "")


def _day(entry: Entry, key: str) -> int:
    try:
        return day_of_season(read_month_day(entry.text(key)))
    except ValueError as fault:
        entry.fail(str(fault), key)


def _read_offset(entry: Entry) -> Offset:
    days = entry.number("days")
    if days is None:
        entry.fail("the key “days” is missing")
    return Offset(days, entry.text("reference"), entry.number("to_days"))


def _read_pair(entry: Entry) -> tuple[str, str]:
    pair = entry.texts("value")
    return (pair[0], pair[1]) if len(pair) == 2 else entry.fail("a pair names two cultivars", "value")


CHILL: Form[ChillNeed] = Form((*SPAN.keys, "model", "as_stated"), _read_chill)
PORTIONS: Form[ChillNeed] = Form((*SPAN.keys, "as_stated"), _read_portions)
GENOTYPE: Form[SGenotype] = Form(("alleles", "notation"), _read_genotype)
PLOIDY: Form[int] = Form(("value",), _read_ploidy)
HARVEST: Form[HarvestTime] = Form(("from", "to", "place", "as_stated"), _read_harvest)
OFFSET: Form[Offset] = Form(("days", "to_days", "reference"), _read_offset)
PAIR: Form[tuple[str, str]] = Form(("value",), _read_pair)
