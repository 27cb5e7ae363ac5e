"""What was put on a tree, as the log holds it: written once, and corrected only by a further entry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class Application:
    """One entry of the log of a tree.

    `reference` is the code of the tree, never a person's name. `corrects` is the entry in whose place this one stands;
    `did_not_happen` takes that one out of the log altogether. `product` and `version` name a version of the shelf.
    """

    id: str
    reference: str
    applied_on: date
    actives: tuple[str, ...]
    logged_at: str
    crop: str | None = None
    product: str | None = None
    version: int | None = None
    product_name: str | None = None
    epa_reg_no: str | None = None
    corrects: str | None = None
    did_not_happen: bool = False


def standing(entries: Iterable[Application]) -> tuple[Application, ...]:
    """The entries that count: none that a later one corrects, and none that did not happen; the earliest use first.

    >>> from datetime import date
    >>> wrong = Application(id="a", reference="t1", applied_on=date(2025, 5, 1), actives=("captan",), logged_at="1")
    >>> right = Application(id="b", reference="t1", applied_on=date(2025, 5, 2), actives=("captan",), logged_at="2",
    ...                     corrects="a")
    >>> [entry.id for entry in standing([wrong, right])]
    ['b']
    """
    every = list(entries)
    corrected = {entry.corrects for entry in every}
    left = [entry for entry in every if entry.id not in corrected and not entry.did_not_happen]
    return tuple(sorted(left, key=lambda entry: (entry.applied_on, entry.logged_at, entry.id)))
