"""What the directions for use, the crop and the log of the tree forbid (see label_law)."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping
from typing import Any

from tests.questions.label_law import (
    AFTER_SHUCK_SPLIT,
    BEFORE_PETAL_FALL,
    COPPER_POME,
    COPPER_STONE,
    FORBIDDEN,
    NO_PRODUCT,
    POME,
    REPORTED,
    STONE,
    Record,
    Use,
    day,
    kinds,
    of_the_store,
    substances,
)
from tests.questions.label_law_of_day import of_the_day
from tests.questions.label_substances import SUBSTANCES

Site = Mapping[str, Any]
Shelf = Mapping[str, Record]


def breaches(record: Record, use: Use, *, shelf: Shelf) -> set[str]:
    """Every limit that the use would break, and `… not known` where the limit cannot be checked.

    Where a label prints the crop in several entries one of them must bear the use: the one that breaks least counts.
    """
    standing = {*of_the_store(record, use), *_of_the_cause(use), *of_the_day(record, use), *_of_stages(record, use)}
    standing |= {*_of_the_log(record, use, shelf), *_of_the_mix(record, use, shelf), *_of_plants_beneath(record, use)}
    sites = [site for site in record["sites"] if use["crop"] in site["crops"]]
    if not sites:
        return standing | {"crop not printed"}
    with_pest = [site for site in sites if use["disorder"] in site["pests"]] or sites
    return standing | min((set(_of_the_site(record, site, use)) for site in with_pest), key=_badness)


def _badness(found: set[str]) -> tuple[bool, int]:
    return bool(found & set(FORBIDDEN)), len(found)


def _of_the_cause(use: Use) -> Iterator[str]:
    if use["disorder"] in REPORTED:
        yield "reported pest"
    if use["disorder"] in NO_PRODUCT:
        yield "no product works"
    if use["disorder"] == "peach_leaf_curl" and use.get("stage") not in (None, "leaf_fall", "dormant"):
        yield "too late"
    if use.get("exposure_reported"):
        yield "somebody exposed"
    if use.get("confidence", 1) < 0.7:
        yield "cause not sure"


def _of_the_site(record: Record, site: Site, use: Use) -> Iterator[str]:
    yield from _of_the_pest(record, site, use)
    if use.get("method") not in (None, *site["method"]):
        yield "method not printed"
    stage, allowed = use.get("stage"), site.get("stages_allowed")
    if stage in (site.get("stages_prohibited") or []):
        yield "stage forbidden"
    if stage is not None and allowed is not None and stage not in allowed:
        yield "stage outside the window"
    if stage is not None and stage not in (allowed or []):
        yield from _of_copper(record, use)
    bearing = not (use.get("tree") or {}).get("nonbearing")
    if site.get("nonbearing_only") and bearing:
        yield "for trees that bear no fruit"
    yield from _of_the_harvest(record, site, use)
    yield from _of_counts(record, site, use)


def _of_the_pest(record: Record, site: Site, use: Use) -> Iterator[str]:
    if use["disorder"] not in site["pests"]:
        yield "only printed pests" if record["pests_mode"] == "listed_only" else "pest not printed"
        if use.get("state") == "NY":
            yield "state wants the pest printed"


def _of_copper(record: Record, use: Use) -> Iterator[str]:
    """Copper on a stage that this entry does not print."""
    if "copper" in kinds(record):
        if use["crop"] in POME and use["stage"] not in COPPER_POME:
            yield "copper on pome fruit"
        if use["crop"] in STONE and use["stage"] not in COPPER_STONE:
            yield "copper on stone fruit"


def _of_the_harvest(record: Record, site: Site, use: Use) -> Iterator[str]:
    wait, harvest, stage = site.get("phi_days"), use.get("harvest_from"), use.get("stage")
    bearing = not (use.get("tree") or {}).get("nonbearing")
    if bearing and wait is None and not site.get("phi_text"):
        yield "no interval printed"
    if wait and harvest is None:
        yield "harvest not known"
    elif wait and day(use["date"]) + datetime.timedelta(days=wait) > day(harvest):
        over = day(harvest) < day(use["date"]) and stage in ("post_harvest", "leaf_fall", "dormant")
        yield "harvest not known" if over else "harvest too soon"
    if bearing and wait is None and "chlorothalonil" in kinds(record) and use["crop"] in STONE:
        yield from ["chlorothalonil after shuck split"] if stage in AFTER_SHUCK_SPLIT else []


def _of_counts(record: Record, site: Site, use: Use) -> Iterator[str]:
    today, own = day(use["date"]), [day(one["date"]) for one in _log(use) if one["product"] == record["id"]]
    this_year = [used for used in own if used.year == today.year]
    printed = site.get("max_apps_per_year"), site.get("max_apps_per_season")
    limits = [number for number in printed if number is not None]
    if limits and len(this_year) >= min(limits):
        yield "applications used up"
    gap = site.get("min_retreat_days")
    if gap is not None and own and (today - max(own)).days < gap:
        yield "too soon to repeat"


def _of_stages(record: Record, use: Use) -> Iterator[str]:
    stage, made_of = use.get("stage"), kinds(record)
    if stage is None:
        yield "stage not known"
        return
    known = [SUBSTANCES[name] for name in substances(record)]
    bees = {one.bees for one in known if one.kinds & {"insecticide", "miticide"}}
    if stage == "bloom":
        if bees - {"III"}:
            yield "insecticide in bloom"
        if record["pollinator"]["bloom_rule"] == "prohibited":
            yield "label forbids bloom"
    if {"neonicotinoid", "systemic"} <= made_of and stage in BEFORE_PETAL_FALL:
        yield "neonicotinoid before petal fall"
    if "antibiotic" in made_of and (stage != "bloom" or use["crop"] not in POME):
        yield "antibiotic"


def _of_the_log(record: Record, use: Use, shelf: Shelf) -> Iterator[str]:
    """Oil against sulfur and captan: the days that a label prints, or 14."""
    made_of, today = kinds(record), day(use["date"])
    for past in _log(use):
        other = shelf[past["product"]]
        theirs, days = kinds(other), (today - day(past["date"])).days
        for left, right in ((made_of, theirs), (theirs, made_of)):
            if "oil" in left and right & {"sulfur", "lime_sulfur"} and days < _gap(record, other, "sulfur"):
                yield "oil and sulfur"
            if "oil" in left and "captan" in right and days < _gap(record, other, "captan"):
                yield "oil and captan"


def _of_the_mix(record: Record, use: Use, shelf: Shelf) -> Iterator[str]:
    """Another product in the tank: barred by either label, or oil with sulfur or captan."""
    for other in (shelf[name] for name in use.get("tank_mix") or [] if name != record["id"]):
        for one, them in ((record, other), (other, record)):
            barred = set(one["compatibility"]["prohibited_mixes"]) & set(substances(them))
            burns = "oil" in kinds(one) and kinds(them) & {"sulfur", "lime_sulfur", "captan"}
            if barred or burns:
                yield "mix barred"
        yield "mix to be read"


def _gap(record: Record, other: Record, name: str) -> int:
    """Days that the two labels print between oil and `name`, the longest; 14 where neither prints any."""
    meant = {"sulfur": {"sulfur", "calcium polysulfide"}, "captan": {"captan"}}[name] | {"mineral oil"}
    printed = [
        max(gap["days_before"], gap["days_after"])
        for one, them in ((record, other), (other, record))
        for gap in one["compatibility"]["intervals"]
        if gap["with"] in meant and gap["with"] in substances(them)
    ]
    return max(printed, default=14)


def _of_plants_beneath(record: Record, use: Use) -> Iterator[str]:
    site = use.get("site") or {}
    printed = {crop for entry in record["sites"] for crop in entry["crops"]}
    if set(site.get("understory_crops") or []) - printed:
        yield "plants beneath to cover" if site.get("understory_coverable") else "food plants beneath"


def _log(use: Use) -> list[Mapping[str, Any]]:
    return list(use.get("history") or [])
