"""rules/labels.yaml: what label records are held to."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.label import REGISTRATION_TYPES, SIGNAL_WORDS, TOXICITY_CATEGORIES, SignalWord, ToxicityCategory
from service.domain.label_model import (
    FIELD_NEEDS,
    FieldNeed,
    LabelField,
    LabelModel,
    NumberForms,
    PrintedCrop,
    RiskCondition,
)
from service.knowledge.entry import Entry, read_file
from service.knowledge.listed import cited_sources

FILE = "labels.yaml"
_KEYS = ("fields", "numbers", "signal_words", "printed_crops", "minimum_risk", "other_crops", "also_called")
_OTHER_NUMBERS = ("establishment", "not_registered", "invented")
_NUMBERED = tuple(kind for kind in REGISTRATION_TYPES if kind != "exempt_25b")


def read_label_model(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> LabelModel:
    """The model of a record; a folder without the file holds records to nothing."""
    if not (folder / FILE).exists():
        return LabelModel()
    file = read_file(folder, FILE, sources)
    file.known(("labels",))
    top = file.inner("labels")
    if top is None:
        file.fail("the key “labels” is missing")
    top.known(_KEYS)
    all_crops = {*crops, *top.texts("other_crops")}
    return LabelModel(
        fields=MappingProxyType({one.id: one for one in map(_field, top.each("fields"))}),
        numbers=_numbers(top),
        printed_crops=MappingProxyType(
            {one.printed: one for one in (_printed(entry, all_crops) for entry in top.each("printed_crops"))}
        ),
        minimum_risk=MappingProxyType({one.id: one for one in map(_condition, top.each("minimum_risk"))}),
        signal_words=_signal_words(top),
        other_crops=top.texts("other_crops"),
        also_called=_also_called(top, all_crops),
    )


def _field(entry: Entry) -> LabelField:
    entry.name = entry.text("id")
    entry.known(("id", "meaning", "where", "needed", "regulation", "sources"))
    return LabelField(
        id=entry.name,
        meaning=entry.text("meaning"),
        where=entry.text("where"),
        needed=cast(FieldNeed, entry.choice("needed", FIELD_NEEDS)),
        sources=cited_sources(entry),
        regulation=entry.optional_text("regulation"),
    )


def _numbers(top: Entry) -> NumberForms:
    entry = top.inner("numbers")
    if entry is None:
        top.fail("the key “numbers” is missing")
    entry.known((*_NUMBERED, *_OTHER_NUMBERS, "sources"))
    cited_sources(entry)
    return NumberForms(
        registration=MappingProxyType({kind: _pattern(entry, kind) for kind in _NUMBERED}),
        establishment=_pattern(entry, "establishment"),
        not_registered=_pattern(entry, "not_registered"),
        invented=_pattern(entry, "invented"),
    )


def _pattern(entry: Entry, key: str) -> str:
    pattern = entry.text(key)
    try:
        re.compile(pattern)
    except re.error as fault:
        entry.fail(f"“{pattern}” is no pattern: {fault}", key)
    return pattern


def _printed(entry: Entry, crops: Collection[str]) -> PrintedCrop:
    entry.known(("printed", "reads_as", "never", "ask"))
    return PrintedCrop(
        printed=entry.text("printed"),
        reads_as=entry.texts("reads_as", crops),
        never=entry.texts("never", crops),
        ask=entry.optional_text("ask"),
    )


def _condition(entry: Entry) -> RiskCondition:
    entry.name = entry.text("id")
    entry.known(("id", "says", "checks", "sources", "from_memory"))
    return RiskCondition(
        id=entry.name,
        says=entry.text("says"),
        sources=cited_sources(entry),
        checks=entry.optional_text("checks"),
        from_memory=entry.flag("from_memory"),
    )


def _signal_words(top: Entry) -> Mapping[ToxicityCategory, tuple[SignalWord, ...]]:
    entry = top.inner("signal_words")
    if entry is None:
        top.fail("the key “signal_words” is missing")
    entry.known((*TOXICITY_CATEGORIES, "sources"))
    cited_sources(entry)
    return MappingProxyType(
        {each: cast(tuple[SignalWord, ...], entry.texts(each, SIGNAL_WORDS)) for each in TOXICITY_CATEGORIES}
    )


def _also_called(top: Entry, crops: Collection[str]) -> Mapping[str, str]:
    entry = top.inner("also_called")
    if entry is None:
        return MappingProxyType({})
    return MappingProxyType({name: entry.choice(name, crops) for name in entry.mapping})
