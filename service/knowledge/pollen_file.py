"""rules/pollination.yaml: whose pollen sets whom, as far as no single crop or cultivar owns it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from service.domain.pollen import ChangedAllele, PollenKnowledge
from service.domain.provenance import Stated
from service.knowledge.entry import Entry, read_file
from service.knowledge.stated import PROVENANCE, TEXT, Form, stated, words

FILE = "pollination.yaml"
K = TypeVar("K")
V = TypeVar("V")


def read_pollen(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> PollenKnowledge:
    """What the file knows; a folder without the file knows nothing of pollen."""
    if not (folder / FILE).exists():
        return PollenKnowledge()
    file = read_file(folder, FILE, sources)
    file.known(("s_crops", "changed_alleles", "donor_groups", "usual_partners"))
    s_crops = file.inner("s_crops")
    if s_crops is None:
        file.fail("the key “s_crops” is missing")
    return PollenKnowledge(
        s_crops=stated(s_crops, words(crops), "crop"),
        changed=_table(file, "changed_alleles", lambda entry: _changed(entry, crops)),
        donor_groups=_table(file, "donor_groups", lambda entry: _donor_group(entry, crops)),
        usual_partners=_table(file, "usual_partners", lambda entry: _of_crop(entry, crops, words(crops))),
    )


def _table(file: Entry, key: str, read: Callable[[Entry], tuple[K, V]]) -> Mapping[K, V]:
    table: dict[K, V] = {}
    for entry in file.each(key):
        name, value = read(entry)
        if name in table:
            entry.fail(f"this stands twice under “{key}”", "crop")
        table[name] = value
    return MappingProxyType(table)


def _changed(entry: Entry, crops: Collection[str]) -> tuple[tuple[str, str], ChangedAllele]:
    entry.known(("crop", "allele", "pollen_stopped_as", "style_stops", "sources", "from_memory"))
    cited = entry.texts("sources", entry.sources)
    if not cited:
        entry.fail("a changed allele needs at least one id under “sources”")
    changed = ChangedAllele(
        crop=entry.choice("crop", crops),
        allele=entry.text("allele"),
        pollen_stopped_as=entry.optional_text("pollen_stopped_as"),
        style_stops=entry.optional_text("style_stops"),
        sources=cited,
        from_memory=entry.flag("from_memory"),
    )
    return (changed.crop, changed.allele), changed


def _donor_group(entry: Entry, crops: Collection[str]) -> tuple[tuple[str, str], Stated[str]]:
    crop, group = _of_crop(entry, crops, TEXT)
    return (crop, group.value), group


def _of_crop(entry: Entry, crops: Collection[str], form: Form[V]) -> tuple[str, Stated[V]]:
    """A value with its provenance that is said of one crop."""
    entry.known(("crop", *form.keys, *PROVENANCE))
    inside = Form(("crop", *form.keys), form.read)
    return entry.choice("crop", crops), stated(entry, inside, "crop")
