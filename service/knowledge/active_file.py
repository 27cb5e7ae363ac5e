"""rules/actives.yaml: active ingredients by ISO common name."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.label import BEE_CLASSES, MOA_SCHEMES, BeeClass, MoaScheme
from service.domain.treatment import ACTIVE_KINDS, REFUSALS, Active, ActiveKind, Injury, Moa, Refusal, UsualInterval
from service.knowledge.entry import Entry, read_file
from service.knowledge.listed import cited_sources

FILE = "actives.yaml"
ANY = "any"
_KEYS = (
    "iso_name", "cas", "kinds", "moa", "systemic", "refuse", "home_status", "usual_crops", "usual_days", "farm_hours",
    "bee", "organic", "injuries", "weather", "rotation", "sources", "from_memory",
)  # fmt: skip


def read_actives(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> Mapping[str, Active]:
    """The actives by their ISO common names, in the order of the file; a missing file holds none."""
    found: dict[str, Active] = {}
    if not (folder / FILE).exists():
        return MappingProxyType(found)
    top = read_file(folder, FILE, sources)
    top.known(("actives",))
    for entry in top.each("actives"):
        active = _active(entry, crops)
        if active.iso_name in found:
            entry.fail(f"the active “{active.iso_name}” stands twice", "iso_name")
        found[active.iso_name] = active
    return MappingProxyType(found)


def _active(entry: Entry, crops: Collection[str]) -> Active:
    entry.name = entry.text("iso_name")
    entry.known(_KEYS)
    farm, bee = _cited(entry, "farm_hours", "hours"), _cited(entry, "bee", "class")
    refuse = entry.choice("refuse", REFUSALS) if "refuse" in entry.mapping else None
    return Active(
        iso_name=entry.name,
        cas=entry.optional_text("cas"),
        kinds=_kinds(entry),
        moa=_moa(entry),
        home_status=entry.text("home_status"),
        organic_eligible=entry.flag("organic") if "organic" in entry.mapping else None,
        usual_crops=entry.texts("usual_crops", crops),
        usual_intervals=_intervals(entry, crops),
        farm_reentry_hours=farm.whole("hours") if farm else None,
        farm_reentry_source=_source(farm) if farm else None,
        bee_class=cast(BeeClass, bee.choice("class", BEE_CLASSES)) if bee else None,
        bee_source=_source(bee) if bee else None,
        systemic=entry.flag("systemic"),
        injuries=tuple(_injury(one, crops) for one in entry.each("injuries")),
        weather=entry.texts("weather"),
        rotation=entry.optional_text("rotation"),
        refuse=cast(Refusal | None, refuse),
        sources=cited_sources(entry),
        from_memory=entry.flag("from_memory"),
    )


def _kinds(entry: Entry) -> tuple[ActiveKind, ...]:
    kinds = cast(tuple[ActiveKind, ...], entry.texts("kinds", ACTIVE_KINDS))
    return kinds or entry.fail("an active needs at least one of “kinds”")


def _moa(entry: Entry) -> Moa:
    inner = entry.inner("moa")
    if inner is None:
        entry.fail("the key “moa” is missing")
    inner.known(("scheme", "code", "source"))
    return Moa(
        cast(MoaScheme, inner.choice("scheme", MOA_SCHEMES)), inner.optional_text("code"), _source(inner)
    )  # fmt: skip


def _cited(entry: Entry, key: str, value: str) -> Entry | None:
    inner = entry.inner(key)
    if inner is not None:
        inner.known((value, "source"))
    return inner


def _source(entry: Entry) -> str:
    return entry.choice("source", entry.sources)


def _intervals(entry: Entry, crops: Collection[str]) -> Mapping[str, UsualInterval]:
    found: dict[str, UsualInterval] = {}
    for row in entry.each("usual_days"):
        row.known(("days", "source", "crops"))
        ends = row.mapping.get("days")
        if not isinstance(ends, list) or len(ends) != 2 or not all(isinstance(end, int) for end in ends):
            row.fail("“days” is a list of two whole numbers", "days")
        for crop in row.texts("crops", crops):
            if crop in found:
                row.fail(f"“{crop}” stands twice", "crops")
            found[crop] = UsualInterval(ends[0], ends[1], _source(row))
    return MappingProxyType(found)


def _injury(entry: Entry, crops: Collection[str]) -> Injury:
    entry.known(("crop", "effect", "source"))
    return Injury(entry.choice("crop", (ANY, *crops)), entry.text("effect"), _source(entry))
