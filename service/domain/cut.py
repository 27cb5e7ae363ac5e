"""The kinds of cut that a pruning plan may hold, and the work that goes with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

CutKind = Literal["cut", "care", "never"]
CUT_KINDS: tuple[CutKind, ...] = get_args(CutKind)


@dataclass(frozen=True, slots=True)
class Wording:
    """A phrase in English and in Spanish."""

    text: str
    text_es: str


@dataclass(frozen=True, slots=True)
class Cut:
    """One kind of cut: what it takes and where; `living` says that it takes living canopy.

    `care` is work around the cuts; `never` is what people do and should not.
    """

    id: str
    kind: CutKind
    what: Wording
    where: Wording
    living: bool
    sources: tuple[str, ...]
