"""Turns the schema of a label record into the groups and fields of a form, so that the form cannot lag behind it.

The name of an input is the JSON pointer of its value; in a group that repeats, `{n}` stands for the place of the entry.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal

import marshmallow as ma
from marshmallow import validate

from service.api.field_kinds import Day, Flag, Number, Whole
from service.api.label_asked import LabelAsked

InputKind = Literal["text", "long", "date", "flag", "whole", "number", "choice", "checks", "words"]
RATE = "rate_text"
LONG_FROM = 500
SECTIONS: Mapping[str, tuple[str, ...]] = {
    "The product": (
        "id", "product_name", "reg_type", "epa_reg_no", "epa_est_no", "registrant", "distributor_of", "formulation",
        "net_contents", "demo",
    ),
    "The record": ("label_captured_by", "label_version_date", "label_expiry_date", "shelf_expiry"),
    "Registration": (
        "registration_status", "existing_stocks_sale_end", "existing_stocks_use_end", "states_registered",
        "restricted_use", "state_restricted_in", "user_site_class", "residential_prohibited_text",
    ),
    "What is in it": ("active_ingredients", "systemic", "organic_listed"),
    "Printed crops and their directions": ("pests_mode", "max_seasonal_ai_text", "sites"),
    "Hazards and care": (
        "toxicity_category", "signal_word", "poison_skull", "child_warning", "precautionary_text", "first_aid_text",
        "ppe", "reentry_text", "rei_hours", "storage_disposal_text", "misuse_statement", "emergency_contacts",
    ),
    "Weather, bees, water and neighbours": (
        "temperature_limits", "pollinator", "environmental", "compatibility", "phytotoxicity",
    ),
    "Minimum-risk products only": ("exempt_25b",),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class FormField:
    """One input with its label, its hint and the values that it takes."""

    pointer: str
    label: str
    hint: str
    kind: InputKind
    values: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FormGroup:
    """Fields that belong together; one that repeats is added as often as the label has such entries."""

    pointer: str
    legend: str
    parts: tuple[FormField | FormGroup, ...]
    repeats: bool = False


def label_form() -> tuple[FormGroup, ...]:
    """The groups of the form, in the order in which a label is read."""
    fields = LabelAsked().fields
    named = {name for names in SECTIONS.values() for name in names}
    rest = tuple(name for name in fields if name not in named)
    sections = {**SECTIONS, "Besides": rest} if rest else SECTIONS
    return tuple(
        FormGroup("", legend, tuple(_part(fields[name], f"/{name}") for name in names))
        for legend, names in sections.items()
    )


def _part(field: ma.fields.Field[Any], pointer: str) -> FormField | FormGroup:
    said = str(field.metadata["description"]).removesuffix(".").replace("; null where", "; leave it empty where")
    if isinstance(field, ma.fields.Nested):
        inside = f"{pointer}/{{n}}" if field.many else pointer
        return FormGroup(pointer, said, tuple(_inner(field, inside)), repeats=bool(field.many))
    kind, values = _kind(field)
    unit = field.metadata.get("x-unit")
    label = said if unit in (None, "count") or str(unit) in said.lower() else f"{said}, {unit}"
    return FormField(pointer, label, _hint(field, kind), kind, values)


def _inner(field: ma.fields.Nested, pointer: str) -> Iterator[FormField | FormGroup]:
    for name, inner in field.schema.fields.items():
        written = inner.data_key or name
        if written != RATE:
            yield _part(inner, f"{pointer}/{written}")


def _kind(field: ma.fields.Field[Any]) -> tuple[InputKind, tuple[str, ...]]:
    plain: dict[type, InputKind] = {Flag: "flag", Whole: "whole", Number: "number", Day: "date"}
    if type(field) in plain:
        return plain[type(field)], ()
    if isinstance(field, ma.fields.List):
        values = _choices(field.inner)
        return ("checks" if values else "words"), values
    values = _choices(field)
    if values:
        return "choice", values
    longest = max((check.max or 0 for check in field.validators if isinstance(check, validate.Length)), default=0)
    return ("long" if longest > LONG_FROM else "text"), ()


def _choices(field: ma.fields.Field[Any]) -> tuple[str, ...]:
    return next((tuple(check.choices) for check in field.validators if isinstance(check, validate.OneOf)), ())


def _hint(field: ma.fields.Field[Any], kind: InputKind) -> str:
    """An example, where one helps to see what is meant."""
    example = field.metadata["examples"][0]
    if kind in ("choice", "flag", "checks", "date") or example in ([], ""):
        return ""
    if kind == "words":
        return "parted by commas, such as " + ", ".join(example)
    return f"such as {example}"
