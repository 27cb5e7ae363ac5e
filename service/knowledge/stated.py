"""How the files write a value with its provenance.

    bloom: {value: early, sources: [nc-hil302], from_memory: true, others: [{value: mid, sources: [umn-stone]}]}

The provenance keys are the same everywhere; the keys of the value itself depend on what it is, and that is a `Form`:
a choice stands under `value`, a span under `value` or `low` and `high`, a zone under `coldest` and `warmest`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Generic, TypeVar, cast

from service.domain.provenance import Basis, Span, Stated
from service.knowledge.entry import Entry

T = TypeVar("T")
PROVENANCE = ("sources", "from_memory", "basis", "note", "others")
_BASES: tuple[Basis, ...] = ("cultivar", "rootstock", "crop")
_ZONE = re.compile(r"(\d{1,2})([ab]?)\Z")


@dataclass(frozen=True, slots=True)
class Form(Generic[T]):
    """How one kind of value is written: the keys it uses and the function that reads them."""

    keys: tuple[str, ...]
    read: Callable[[Entry], T]


def stated(entry: Entry, form: Form[T], about: Basis) -> Stated[T]:
    """The value of an entry with its provenance; `about` is whom it is stated for when the entry does not say."""
    entry.known((*form.keys, *PROVENANCE))
    sources = entry.texts("sources", entry.sources)
    if not sources:
        entry.fail("a value needs at least one id under “sources”")
    return Stated(
        value=form.read(entry),
        sources=sources,
        from_memory=entry.flag("from_memory"),
        basis=cast(Basis, entry.choice("basis", _BASES)) if "basis" in entry.mapping else about,
        others=tuple(stated(other, form, about) for other in entry.each("others")),
        note=entry.optional_text("note"),
    )


def stated_list(entry: Entry, key: str, form: Form[T], *, about: Basis) -> tuple[Stated[T], ...]:
    """The values listed under a key; a missing key holds none."""
    return tuple(stated(item, form, about) for item in entry.each(key))


def cited(*values: Stated[T]) -> tuple[str, ...]:
    """The ids of all sources that these values and their rivals lean on, sorted.

    >>> cited(Stated(1, ("b",), others=(Stated(2, ("c",)),)), Stated(3, ("a", "b")))
    ('a', 'b', 'c')
    """
    return tuple(sorted({source for value in values for source in (*value.sources, *cited(*value.others))}))


def choice(values: Collection[str]) -> Form[str]:
    """A word out of a fixed set."""
    return Form(("value",), lambda entry: entry.choice("value", values))


def words(values: Collection[str] | None = None) -> Form[tuple[str, ...]]:
    """A list of words, out of a fixed set where one is given."""
    return Form(("value",), lambda entry: entry.texts("value", values))


def _read_span(entry: Entry) -> Span:
    value, low, high = (entry.number(key) for key in ("value", "low", "high"))
    if value is not None and (low is not None or high is not None):
        entry.fail("give either “value” or “low” and “high”, not both")
    return _span(entry, value if low is None else low, value if high is None else high)


def _span(entry: Entry, low: float | None, high: float | None) -> Span:
    try:
        return Span(low, high)
    except ValueError as fault:
        entry.fail(str(fault))


def _read_zone(entry: Entry) -> Span:
    return _span(entry, _zone(entry, "coldest", 0.0), _zone(entry, "warmest", 0.5))


def _zone(entry: Entry, key: str, whole_zone: float) -> float | None:
    """A zone such as 5 or 7b; a whole zone reaches from its colder half (a) to its warmer half (b)."""
    raw = entry.mapping.get(key)
    if raw is None:
        return None
    match = _ZONE.match(str(raw))
    if match is None:
        entry.fail(f"“{raw}” is not a hardiness zone; write 5, 5a or 5b", key)
    return int(match[1]) + {"": whole_zone, "a": 0.0, "b": 0.5}[match[2]]


def _read_number(entry: Entry) -> float:
    value = entry.number("value")
    return value if value is not None else entry.fail("the key “value” is missing")


TEXT: Form[str] = Form(("value",), lambda entry: entry.text("value"))
NUMBER: Form[float] = Form(("value",), _read_number)
SPAN: Form[Span] = Form(("value", "low", "high"), _read_span)
ZONE: Form[Span] = Form(("coldest", "warmest"), _read_zone)
read_span = _read_span
