"""rules/cultivars/<crop>.yaml: the cultivars of one crop, each value with its sources."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, get_args

from service.domain.cultivar import SEASONS, USES, Astringency, Cultivar, Resistance, SelfFertility
from service.domain.provenance import Stated
from service.knowledge.entry import Entry, nearest, read_file
from service.knowledge.forms import CHILL, GENOTYPE, HARVEST, OFFSET, PLOIDY, PORTIONS
from service.knowledge.stated import SPAN, TEXT, ZONE, Form, choice, cited, stated, stated_list, words

FOLDER = "cultivars"
_FIELDS: dict[str, Form[Any]] = {
    "species": TEXT,
    "origin": TEXT,
    "chill_hours": CHILL,
    "chill_portions": PORTIONS,
    "hardiness_zone": ZONE,
    "self_fertility": choice(get_args(SelfFertility)),
    "s_genotype": GENOTYPE,
    "incompatibility_group": TEXT,
    "ploidy": PLOIDY,
    "bloom": choice(SEASONS),
    "bloom_offset": OFFSET,
    "ripening": choice(SEASONS),
    "ripening_offset": OFFSET,
    "harvest": HARVEST,
    "ripening_as_stated": TEXT,
    "uses": words(USES),
    "uses_as_stated": TEXT,
    "habit": TEXT,
    "height_ft": SPAN,
    "astringency": choice(get_args(Astringency)),
}
_LISTS: dict[str, Form[Any]] = {"chill_bounds": CHILL, "zone_bounds": ZONE, "remarks": TEXT}
_KEYS = ("id", "denomination", "synonyms", "resistance", *_FIELDS, *_LISTS)
_RESISTANCE = choice(get_args(Resistance))
_SLUG = re.compile(r"[a-z0-9]+(_[a-z0-9]+)*\Z")


def read_cultivars(
    folder: Path, crop: str, *, sources: Collection[str], diseases: Collection[str]
) -> list[tuple[Cultivar, Entry]]:
    """The cultivars of one crop, each with its entry so that later checks can name the line."""
    file = read_file(folder, f"{FOLDER}/{crop}.yaml", sources)
    file.known(("crop", "cultivars"))
    if file.text("crop") != crop:
        file.fail(f"the file is named for {crop} and must say “crop: {crop}”", "crop")
    return [(_cultivar(entry, crop, diseases), entry) for entry in file.each("cultivars")]


def _cultivar(entry: Entry, crop: str, diseases: Collection[str]) -> Cultivar:
    entry.name = entry.text("id")
    entry.known(_KEYS)
    start, _, slug = entry.name.partition(".")
    if start != crop or not _SLUG.match(slug):
        entry.fail(f"the id must read {crop}.name_of_the_cultivar, in small letters and underscores", "id")
    known: dict[str, Any] = {
        key: stated(inner, form, "cultivar") for key, form in _FIELDS.items() if (inner := entry.inner(key))
    }
    lists: dict[str, Any] = {key: stated_list(entry, key, form, about="cultivar") for key, form in _LISTS.items()}
    resistance = _resistance(entry, diseases)
    return Cultivar(
        id=entry.name,
        crop=crop,
        denomination=entry.text("denomination"),
        synonyms=entry.texts("synonyms"),
        resistance=resistance,
        sources=cited(*known.values(), *resistance.values(), *(value for each in lists.values() for value in each)),
        **known,
        **lists,
    )


def _resistance(entry: Entry, diseases: Collection[str]) -> Mapping[str, Stated[Any]]:
    inner = entry.inner("resistance")
    if inner is None:
        return MappingProxyType({})
    for disease in inner.mapping:
        if disease not in diseases:
            inner.fail(f"“{disease}” is not a known disease{nearest(disease, diseases)}", disease)
    return MappingProxyType(
        {each: stated(rated, _RESISTANCE, "cultivar") for each in inner.mapping if (rated := inner.inner(each))}
    )
