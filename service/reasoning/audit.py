"""Counts what rules do in service: how often each fired, and how often two strong conclusions disagreed.

A conflict is a defect of the rulebook: both conclusions are shown, and the rules that disagree are kept here by id.
"""

from __future__ import annotations

import threading
from collections import Counter

from service.reasoning.conclusions import Judgement


class Audit:
    """Counts over the life of a worker; safe under threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._fired: Counter[str] = Counter()
        self._conflicts: Counter[tuple[str, ...]] = Counter()
        self._disagreements = 0

    def note(self, judgement: Judgement) -> None:
        """Counts what one judgement holds."""
        with self._lock:
            self._fired.update(rule.id for rule in judgement.rules)
            for conflict in judgement.conflicts:
                self._conflicts[(conflict.name, *sorted({rule_id for rule_id, _ in conflict.said}))] += 1

    def note_disagreement(self) -> None:
        """Counts a case that the two matchers judged differently."""
        with self._lock:
            self._disagreements += 1

    @property
    def fired(self) -> dict[str, int]:
        """How often each rule fired."""
        with self._lock:
            return dict(self._fired)

    @property
    def conflicts(self) -> dict[tuple[str, ...], int]:
        """How often each set of rules disagreed: the name concluded, then the rules' ids."""
        with self._lock:
            return dict(self._conflicts)

    @property
    def disagreements(self) -> int:
        """How often the two matchers judged a case differently."""
        with self._lock:
            return self._disagreements
