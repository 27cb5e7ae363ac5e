"""A consultation that staff asked to keep: what was asked, what was answered, and by which rulebook."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Consultation:
    """One kept answer; with its digest it can be asked again of the same rulebook and must say the same."""

    id: str
    question: str
    asked: Mapping[str, Any]
    answer: Mapping[str, Any]
    rulebook: str
    kept_at: str
