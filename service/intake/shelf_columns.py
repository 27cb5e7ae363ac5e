"""The columns of a shelf in a table: each is named by the path of its field in the JSON of a label record.

`product_name` and `temperature_limits.max_f` are fields of a product, `sites.phi_days` is a field of a printed crop
name, of which each has a row of its own, and `active_ingredients.2.iso_name` is a field of the second active.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from types import MappingProxyType, UnionType
from typing import Any, Literal, get_args, get_origin, get_type_hints

from service.domain.label import LabelRecord

CellKind = Literal["text", "date", "flag", "whole", "number", "list"]
SITES, RATE = "sites", "rate_text"
MOST_IN_A_LIST = 40
_NUMBERED = re.compile(r"(?P<before>[a-z0-9_.]+)\.(?P<number>[1-9][0-9]?)\.(?P<after>[a-z_]+)")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its field, the list that it stands in, where it does, and what its cells hold.

    `place` is the number of the entry in that list, from 1; for a printed crop name the row says it. `optional`: an
    empty list is told apart from one that nobody knows.
    """

    name: str
    path: tuple[str, ...]
    kind: CellKind
    listed: tuple[str, ...] = ()
    place: int | None = None
    optional: bool = False

    @property
    def of_site(self) -> bool:
        """Whether it belongs to a printed crop name."""
        return self.listed == (SITES,)


def column(name: str) -> Column | None:
    """The column of a name; None where there is no such field.

    >>> column("active_ingredients.2.percent").kind, column("sites.pests").of_site, column("rate")
    ('number', True, None)
    """
    match = _NUMBERED.fullmatch(name)
    known = fields().get(f"{match['before']}.{match['after']}" if match else name)
    if known is None or bool(match) != (bool(known.listed) and not known.of_site):
        return None
    place = int(match["number"]) if match else None
    return None if place and place > MOST_IN_A_LIST else dataclasses.replace(known, name=name, place=place)


@cache
def fields() -> Mapping[str, Column]:
    """All columns by their names without numbers, in the order of the record, those of printed crop names last."""
    found = {one.name: one for one in _columns(LabelRecord, (), ())}
    found[f"{SITES}.{RATE}"] = Column(f"{SITES}.{RATE}", (RATE,), "text", (SITES,))
    ordered = sorted(found.values(), key=lambda one: one.of_site)
    return MappingProxyType({one.name: one for one in ordered})


def _columns(kind: Any, path: tuple[str, ...], listed: tuple[str, ...]) -> Iterator[Column]:
    for name, hint in get_type_hints(kind).items():
        written = "with" if name == "other" else name
        optional, bare = _bare(hint)
        inner = get_args(bare)[0] if get_origin(bare) is tuple else None
        if inner is not None and dataclasses.is_dataclass(inner):
            yield from _columns(inner, (), (*path, written))
        elif dataclasses.is_dataclass(bare):
            yield from _columns(bare, (*path, written), listed)
        else:
            full = (*path, written)
            yield Column(".".join((*listed, *full)), full, _cell_kind(bare, inner), listed, optional=optional)


def _bare(hint: Any) -> tuple[bool, Any]:
    if isinstance(hint, UnionType):
        return True, next(one for one in get_args(hint) if one is not type(None))
    return False, hint


def _cell_kind(bare: Any, inner: Any) -> CellKind:
    if inner is not None:
        return "list"
    kinds: dict[Any, CellKind] = {bool: "flag", int: "whole", float: "number", date: "date"}
    return kinds.get(bare, "text")
