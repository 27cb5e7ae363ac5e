"""rules/state_law.yaml and rules/active_groups.yaml: what binds the use of a product besides its label."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.use_law import FAMILIES, STATE_TOPICS, ActiveFamily, Family, StateLaw, StateTopic, UseLaw
from service.knowledge.entry import Entry, read_file
from service.knowledge.listed import cited_sources, read_listed

STATES_FILE, GROUPS_FILE = "state_law.yaml", "active_groups.yaml"
_STATE_KEYS = ("id", "state", "topic", "says", "actives", "pests", "from", "sources", "from_memory")
_FAMILY_KEYS = ("id", "actives", "moa", "kinds", "sources")


def read_use_law(folder: Path, *, sources: Collection[str]) -> UseLaw:
    """What binds a use besides the label; a folder without the files knows nothing of it."""
    states = read_listed(folder, STATES_FILE, _state, sources=sources)
    if not (folder / GROUPS_FILE).exists():
        return UseLaw(states=states)
    top = read_file(folder, GROUPS_FILE, sources).inner("active_groups")
    if top is None:
        read_file(folder, GROUPS_FILE, sources).fail("the key “active_groups” is missing")
    top.known(("families", "many_sites"))
    return UseLaw(states, _families(top), _many_sites(top))


def _state(entry: Entry) -> StateLaw:
    entry.known(_STATE_KEYS)
    return StateLaw(
        id=entry.text("id"),
        state=entry.text("state"),
        topic=cast(StateTopic, entry.choice("topic", STATE_TOPICS)),
        says=entry.text("says"),
        sources=cited_sources(entry),
        actives=entry.texts("actives"),
        pests=entry.texts("pests"),
        starts=_day(entry, "from"),
        from_memory=entry.flag("from_memory"),
    )


def _day(entry: Entry, key: str) -> date | None:
    written = entry.optional_text(key)
    if written is None:
        return None
    try:
        return date.fromisoformat(written)
    except ValueError:
        entry.fail(f"“{written}” is no day such as 2025-01-01", key)


def _families(top: Entry) -> Mapping[str, ActiveFamily]:
    found: dict[str, ActiveFamily] = {}
    for entry in top.each("families"):
        entry.known(_FAMILY_KEYS)
        cited_sources(entry)
        name = cast(Family, entry.choice("id", FAMILIES))
        if name in found:
            entry.fail(f"the family “{name}” stands twice", "id")
        found[name] = ActiveFamily(name, entry.texts("actives"), entry.texts("moa"), entry.texts("kinds"))
    return MappingProxyType(found)


def _many_sites(top: Entry) -> frozenset[str]:
    groups: set[str] = set()
    for entry in top.each("many_sites"):
        entry.known(("scheme", "codes", "sources"))
        cited_sources(entry)
        groups |= {f"{entry.choice('scheme', ('FRAC', 'IRAC'))} {code}" for code in entry.texts("codes")}
    return frozenset(groups)
