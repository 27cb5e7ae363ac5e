"""rules/training.yaml: the forms that fruit trees are trained to."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType

from service.domain.training import Measure, TrainingForm
from service.knowledge.entry import Entry, read_file
from service.knowledge.stated import SPAN, Form, cited, read_span, stated, stated_list, words

FILE = "training.yaml"
_MEASURES = (
    "head_height_in",
    "height_ft",
    "leader_height_ft",
    "depth_ft",
    "spacing_ft",
    "main_limbs",
    "limb_gap_in",
    "limb_length_in",
    "limb_angle_deg",
    "tier_gap_in",
    "tiers",
    "first_wire_in",
    "wire_gap_in",
    "wall_gap_in",
    "stems",
)


def read_training(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> Mapping[str, TrainingForm]:
    """The forms by id; a folder without the file knows none."""
    if not (folder / FILE).exists():
        return MappingProxyType({})
    file = read_file(folder, FILE, sources)
    file.known(("forms",))
    forms: dict[str, TrainingForm] = {}
    for entry in file.each("forms"):
        form = _form(entry, crops)
        if form.id in forms:
            entry.fail(f"the id “{form.id}” stands twice", "id")
        forms[form.id] = form
    return MappingProxyType(forms)


def _form(entry: Entry, crops: Collection[str]) -> TrainingForm:
    entry.name = entry.text("id")
    entry.known(("id", "name", "name_es", "suits", "measures"))
    suits = stated_list(entry, "suits", words(crops), about="crop")
    table = entry.inner("measures")
    measures = {}
    if table is not None:
        table.known(_MEASURES)
        measures = {key: stated(cell, _MEASURE, "crop") for key in _MEASURES if (cell := table.inner(key))}
    return TrainingForm(
        id=entry.name,
        name=entry.text("name"),
        name_es=entry.text("name_es"),
        suits=suits,
        measures=MappingProxyType(measures),
        sources=tuple(sorted({*cited(*suits), *cited(*measures.values())})),
    )


def _read_measure(entry: Entry) -> Measure:
    span, usual = read_span(entry), entry.number("usual")
    if usual is not None and not (span.low or usual) <= usual <= (span.high or usual):
        entry.fail("the usual figure must lie between “low” and “high”", "usual")
    return Measure(span, usual)


_MEASURE: Form[Measure] = Form((*SPAN.keys, "usual"), _read_measure)
