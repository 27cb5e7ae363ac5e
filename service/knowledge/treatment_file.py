"""rules/treatments/<kind>.yaml: what can be done about each cause, a file for each kind of cause."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.cut import Wording
from service.domain.disorder import Disorder, Measure
from service.domain.errors import KnowledgeFault
from service.domain.label import LABEL_STAGES, LabelStage
from service.domain.treatment import (
    PEST_KINDS,
    POINTERS,
    RATINGS,
    PestKind,
    Pointer,
    Rating,
    Treatment,
    TreatmentMeasure,
    TreatmentOption,
)
from service.knowledge.entry import Entry, nearest, read_file
from service.knowledge.listed import cited_sources
from service.knowledge.wording import wording

FOLDER = "treatments"
_KEYS = (
    "id", "name", "pointer", "crops", "measures", "stages", "any_stage", "timing", "options", "do_not",
    "regulated_in", "sources", "from_memory",
)  # fmt: skip
_OPTION_KEYS = ("active", "rating", "published", "source", "when", "note", "from_memory")


@dataclass(frozen=True, slots=True)
class Known:
    """What a treatment may name."""

    disorders: Mapping[str, Disorder]
    measures: Mapping[str, Measure]
    actives: Collection[str]
    crops: Collection[str]


def read_treatments(folder: Path, known: Known, *, sources: Collection[str]) -> Mapping[str, Treatment]:
    """The treatments by the id of what they treat."""
    found: dict[str, Treatment] = {}
    for path in sorted((folder / FOLDER).glob("*.yaml")):
        shown = f"{FOLDER}/{path.name}"
        if path.stem not in PEST_KINDS:
            raise KnowledgeFault(shown, 1, f"“{path.stem}” is not a kind of cause{nearest(path.stem, PEST_KINDS)}")
        file = read_file(folder, shown, sources)
        file.known((FOLDER,))
        for entry in file.each(FOLDER):
            treatment = _treatment(entry, path.stem, known)
            if treatment.id in found:
                entry.fail(f"the id “{treatment.id}” stands twice", "id")
            found[treatment.id] = treatment
    return MappingProxyType(found)


def _treatment(entry: Entry, kind: PestKind, known: Known) -> Treatment:
    entry.name = entry.text("id")
    entry.known(_KEYS)
    states, recalled = _regulated(entry)
    options = tuple(_option(one, known) for one in entry.each("options"))
    pointer = cast(Pointer, entry.choice("pointer", POINTERS))
    if pointer == "products" and not options:
        entry.fail("a treatment that points to products needs “options”", "pointer")
    return Treatment(
        id=entry.name,
        name=_name(entry, known),
        kind=kind,
        crops=entry.texts("crops", known.crops) or entry.fail("the key “crops” is missing"),
        measures=tuple(_measure(one, known) for one in entry.each("measures")),
        options=options,
        pointer=pointer,
        stages=_stages(entry, "stages"),
        any_stage=entry.flag("any_stage"),
        timing=wording(entry, "timing") if "timing" in entry.mapping else None,
        do_not=tuple(_phrase(one) for one in entry.each("do_not")),
        regulated_in=states,
        regulated_from_memory=recalled,
        sources=cited_sources(entry),
        from_memory=entry.flag("from_memory"),
    )


def _name(entry: Entry, known: Known) -> str | None:
    name, ours = entry.optional_text("name"), entry.name in known.disorders
    if name is None and not ours:
        entry.fail(f"“{entry.name}” is no disorder{nearest(entry.name or '', known.disorders)}; else give it a “name”")
    if name is not None and ours:
        entry.fail("the name stands with the disorder; leave it out here", "name")
    return name


def _measure(entry: Entry, known: Known) -> TreatmentMeasure:
    entry.known(("measure", "when", "how"))
    measure = known.measures[entry.choice("measure", known.measures)]
    how = wording(entry, "how") if "how" in entry.mapping else None
    return TreatmentMeasure(measure.id, measure.kind, measure.what, _stages(entry, "when"), how)


def _option(entry: Entry, known: Known) -> TreatmentOption:
    entry.known(_OPTION_KEYS)
    return TreatmentOption(
        active=entry.choice("active", known.actives),
        rating=cast(Rating, entry.choice("rating", RATINGS)),
        published=entry.text("published"),
        source=entry.choice("source", entry.sources),
        when=_stages(entry, "when"),
        note=entry.optional_text("note"),
        from_memory=entry.flag("from_memory"),
    )


def _stages(entry: Entry, key: str) -> tuple[LabelStage, ...]:
    return cast(tuple[LabelStage, ...], entry.texts(key, LABEL_STAGES))


def _phrase(entry: Entry) -> Wording:
    entry.known(("text", "text_es"))
    return Wording(entry.text("text"), entry.text("text_es"))


def _regulated(entry: Entry) -> tuple[tuple[str, ...], bool]:
    inner = entry.inner("regulated_in")
    if inner is None:
        return (), False
    inner.known(("states", "from_memory"))
    return inner.texts("states"), inner.flag("from_memory")
