"""The products that a store has on its shelf, each with all versions of its label record."""

from __future__ import annotations

from dataclasses import dataclass

from service.domain.label import LabelRecord


@dataclass(frozen=True, slots=True)
class ShelfProduct:
    """One product in one version; times are UTC text. `versions` counts all, `withdrawn_at` None: on the shelf."""

    id: str
    version: int
    record: LabelRecord
    entered_at: str
    versions: int
    withdrawn_at: str | None = None
