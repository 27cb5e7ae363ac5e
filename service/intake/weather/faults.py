"""Collects what is wrong with rows, and stops at a number that a person can still read."""

from __future__ import annotations

from service.domain.errors import NotUnderstood

_SHOWN = 10


class RowFaults:
    """The faults of a table; the first few are told in full, the others are counted."""

    def __init__(self, whole: str) -> None:
        self.whole, self.found, self.count = whole, list[tuple[str, str]](), 0

    def add(self, pointer: str, detail: str) -> None:
        """Note a fault at its place."""
        self.count += 1
        if len(self.found) < _SHOWN:
            self.found.append((pointer, detail))

    def stop_if_any(self) -> None:
        """Raise NotUnderstood when there is a fault."""
        if self.count > len(self.found):
            self.found.append((self.whole, f"{self.count - len(self.found)} more rows cannot be read"))
        if self.found:
            raise NotUnderstood(*self.found)
