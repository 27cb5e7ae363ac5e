"""rules/crops/<crop>.yaml: what is known of a crop as a whole."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, cast, get_args

from service.domain.crop import Crop, CropKind, TreeSize
from service.domain.cultivar import SEASONS, SelfFertility
from service.domain.provenance import Stated
from service.knowledge.entry import Entry, read_file
from service.knowledge.forms import CHILL, HARVEST, PAIR, PORTIONS
from service.knowledge.stated import NUMBER, SPAN, TEXT, ZONE, Form, choice, cited, stated, stated_list, words

FOLDER = "crops"
_SIZES = get_args(TreeSize)
_FIELDS: dict[str, Form[Any]] = {
    "species": TEXT,
    "chill_hours": CHILL,
    "chill_portions": PORTIONS,
    "hardiness_zone": ZONE,
    "self_fertility": choice(get_args(SelfFertility)),
    "partner_crops": words(),
    "not_partner_crops": words(),
    "pollination_distance_ft": NUMBER,
    "height_ft": SPAN,
    "close_spacing_ft": SPAN,
    "days_bloom_to_harvest": SPAN,
}
_PAIRS = ("incompatible_pairs", "good_pairs")
_TABLES: dict[str, tuple[tuple[str, ...], Form[Any]]] = {
    "spacing_ft": (_SIZES, SPAN),
    "years_to_bear": (_SIZES, SPAN),
    "life_years": (_SIZES, SPAN),
    "harvest_by_season": (SEASONS, HARVEST),
}
_HEAD = ("id", "name", "name_es", "kind", "synonyms")


def read_crop(folder: Path, crop: str, *, sources: Collection[str]) -> tuple[Crop, Entry]:
    """The crop of one file, with its entry so that later checks can name the line."""
    entry = read_file(folder, f"{FOLDER}/{crop}.yaml", sources)
    entry.name = entry.text("id")
    entry.known((*_HEAD, *_FIELDS, *_PAIRS, *_TABLES))
    if entry.name != crop:
        entry.fail(f"the file is named for {crop} and must say “id: {crop}”", "id")
    if "species" not in entry.mapping:
        entry.fail("the key “species” is missing")
    known = {key: stated(inner, form, "crop") for key, form in _FIELDS.items() if (inner := entry.inner(key))}
    pairs = {key: stated_list(entry, key, PAIR, about="crop") for key in _PAIRS}
    tables = {key: _table(entry, key, *shape) for key, shape in _TABLES.items()}
    values = [*known.values(), *(pair for each in pairs.values() for pair in each)]
    values += [value for table in tables.values() for value in table.values()]
    return _crop(entry, {**known, **pairs, **tables, "sources": cited(*values)}), entry


def _crop(entry: Entry, values: dict[str, Any]) -> Crop:
    return Crop(
        id=entry.text("id"),
        name=entry.text("name"),
        name_es=entry.text("name_es"),
        kind=cast(CropKind, entry.choice("kind", get_args(CropKind))),
        synonyms=entry.texts("synonyms"),
        **values,
    )


def _table(entry: Entry, key: str, columns: tuple[str, ...], form: Form[Any]) -> Mapping[str, Stated[Any]]:
    table = entry.inner(key)
    if table is None:
        return MappingProxyType({})
    table.known(columns)
    return MappingProxyType({column: stated(cell, form, "crop") for column in columns if (cell := table.inner(column))})
