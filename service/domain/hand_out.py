"""What a customer takes home: the sheet of an hour at the counter, under an address that only they know, for a time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class HandOut:
    """A sheet and the secret that opens it; times are UTC as text, and after `expires_at` nothing of it is left."""

    secret: str
    sheet: Mapping[str, Any]
    made_at: str
    expires_at: str
