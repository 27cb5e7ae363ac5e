"""A publication that we lean on."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """One published source. `confirmed` says whether a stored copy of it was read."""

    id: str
    title: str
    publisher: str
    authors: str | None = None
    year: int | None = None
    number: str | None = None
    url: str | None = None
    confirmed: str | None = None
