"""rules/rootstocks.yaml: rootstocks by denomination."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from typing import Any, get_args

from service.domain.rootstock import Cold, Precocity, Rootstock, Staking, Strength, Tolerance
from service.knowledge.entry import Entry, read_file
from service.knowledge.stated import SPAN, TEXT, Form, choice, cited, stated, stated_list, words

FILE = "rootstocks.yaml"
_TOLERANCE, _STRENGTH = choice(get_args(Tolerance)), choice(get_args(Strength))
_FIELDS: dict[str, Form[Any]] = {
    "parentage": TEXT,
    "size_percent": SPAN,
    "size_note": TEXT,
    "height_ft": SPAN,
    "spacing_ft": SPAN,
    "staking": choice(get_args(Staking)),
    "staking_as_stated": TEXT,
    "precocity": choice(get_args(Precocity)),
    "precocity_as_stated": TEXT,
    "years_to_bear": SPAN,
    "cold_hardiness": choice(get_args(Cold)),
    "wet_soil": _TOLERANCE,
    "lime_soil": _TOLERANCE,
    "dry_soil": _TOLERANCE,
    "soil_as_stated": TEXT,
    "suckering": choice(("few", "some", "many")),
    "fire_blight": _STRENGTH,
    "crown_rot": _STRENGTH,
    "replant_disease": _STRENGTH,
    "woolly_apple_aphid": _STRENGTH,
    "root_knot_nematode": _STRENGTH,
    "bacterial_canker": _STRENGTH,
    "incompatible_cultivars": words(),
    "compatibility_as_stated": TEXT,
}
_KEYS = ("id", "name", "synonyms", "crops", "remarks", *_FIELDS)


def read_rootstocks(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> list[tuple[Rootstock, Entry]]:
    """The rootstocks, each with its entry so that later checks can name the line."""
    file = read_file(folder, FILE, sources)
    file.known(("rootstocks",))
    return [(_rootstock(entry, crops), entry) for entry in file.each("rootstocks")]


def _rootstock(entry: Entry, crops: Collection[str]) -> Rootstock:
    entry.name = entry.text("id")
    entry.known(_KEYS)
    grown = entry.texts("crops", crops)
    if not grown:
        entry.fail("a rootstock names at least one crop under “crops”")
    known = {key: stated(inner, form, "rootstock") for key, form in _FIELDS.items() if (inner := entry.inner(key))}
    remarks = stated_list(entry, "remarks", TEXT, about="rootstock")
    return Rootstock(
        id=entry.name,
        name=entry.text("name"),
        synonyms=entry.texts("synonyms"),
        crops=grown,
        remarks=remarks,
        sources=cited(*known.values(), *remarks),
        **known,
    )
