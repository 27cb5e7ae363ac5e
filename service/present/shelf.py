"""Products of a shelf as plain data: the record, what was found in it, and what a change or a file would change."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from service.compute.label_record import findings
from service.domain.label import LabelRecord
from service.domain.label_model import LabelModel
from service.domain.plain_label import plain_record
from service.domain.shelf import ShelfProduct

RATE_LEFT_OUT = "How much is used was left out: it stands on the label, and nowhere else."


def product_told(product: ShelfProduct, model: LabelModel) -> dict[str, Any]:
    """A product in one version, with what is missing or contradictory in its record."""
    return {
        "id": product.id,
        "version": product.version,
        "versions": product.versions,
        "entered_at": product.entered_at,
        "withdrawn_at": product.withdrawn_at,
        "label": plain_record(product.record),
        "findings": findings_told(product.record, model),
    }


def findings_told(record: LabelRecord, model: LabelModel) -> list[dict[str, Any]]:
    """What is missing, malformed or contradictory in a record, with the regulation that asks for it."""
    return [
        {
            "kind": one.kind,
            "field": one.field,
            "says": one.says,
            "regulation": regulation_of(one.field, model),
        }
        for one in findings(record, model)
    ]


def regulation_of(field: str, model: LabelModel) -> str | None:
    """The regulation behind a field, by its path without the places in lists."""
    name = ".".join(step for step in field.split(".") if not step.isdigit())
    found = model.fields.get(name) or model.fields.get(name.split(".")[0])
    return found.regulation if found else None


def left_out_told(pointers: Sequence[str]) -> list[dict[str, Any]]:
    """The notes on what was not kept."""
    return [{"pointer": pointer, "detail": RATE_LEFT_OUT} for pointer in pointers]


def changes(before: LabelRecord, after: LabelRecord) -> list[dict[str, Any]]:
    """The fields in which two records differ, by their paths, with both values.

    >>> changes(LabelRecord(product_name="x"), LabelRecord(product_name="y"))
    [{'field': 'product_name', 'before': 'x', 'after': 'y'}]
    """
    old, new = dict(_leaves(plain_record(before))), dict(_leaves(plain_record(after)))
    return [
        {"field": field, "before": old.get(field), "after": new.get(field)}
        for field in dict.fromkeys((*old, *new))
        if old.get(field) != new.get(field)
    ]


def _leaves(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    """The values of a record by their paths; a list of plain values is one value."""
    if isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _leaves(inner, (*path, name))
    elif isinstance(value, list) and any(isinstance(one, Mapping) for one in value):
        for place, inner in enumerate(value):
            yield from _leaves(inner, (*path, str(place)))
    else:
        yield ".".join(path), value if value != [] else None
