"""Counts what rules do in service: how often each fired, and how often two strong conclusions disagreed.

A conflict is a defect of the rulebook: both conclusions are shown, and the rules that disagree are counted here and
logged the first time that a worker meets them.
"""

from __future__ import annotations

import logging
import threading
from collections import Counter

from service.reasoning.conclusions import Conflict, Judgement

log = logging.getLogger(__name__)


class Audit:
    """Counts over the life of a worker; safe under threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._fired: Counter[str] = Counter()
        self._conflicts: Counter[tuple[str, ...]] = Counter()

    def note(self, judgement: Judgement) -> None:
        """Counts what one judgement holds."""
        with self._lock:
            self._fired.update(rule.id for rule in judgement.rules)
            for conflict in judgement.conflicts:
                self._note_conflict(conflict)

    def _note_conflict(self, conflict: Conflict) -> None:
        key = (conflict.name, *sorted({rule_id for rule_id, _ in conflict.said}))
        if key not in self._conflicts:
            log.error("rules disagree on %s: %s", conflict.name, ", ".join(key[1:]))
        self._conflicts[key] += 1

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


audit = Audit()
