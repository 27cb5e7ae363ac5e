"""Faults of a rulebook, gathered so that a writer sees all of them at once and not one a time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from service.domain.errors import KnowledgeFault


class RulebookFaults(KnowledgeFault):
    """A rulebook does not load; `faults` holds every reason, each with file, line, entry and what to write."""

    def __init__(self, faults: Sequence[KnowledgeFault]) -> None:
        self.faults = tuple(faults)
        first = self.faults[0]
        super().__init__(first.file, first.line, first.what, entry=first.entry)
        if len(self.faults) > 1:
            self.args = ("\n".join(str(fault) for fault in self.faults),)


class Faults:
    """Collects what is wrong while reading goes on, and raises it together at the end of a step."""

    def __init__(self) -> None:
        self.found: list[KnowledgeFault] = []

    @contextmanager
    def kept(self) -> Iterator[None]:
        """Notes a fault raised inside instead of letting it through."""
        try:
            yield
        except RulebookFaults as many:
            self.found.extend(many.faults)
        except KnowledgeFault as fault:
            self.found.append(fault)

    def add(self, fault: KnowledgeFault) -> None:
        """Notes a fault."""
        self.found.append(fault)

    def stop_if_any(self) -> None:
        """Raises everything found so far, each once, in the order of files and lines."""
        if self.found:
            once = {str(fault): fault for fault in self.found}
            raise RulebookFaults(sorted(once.values(), key=lambda fault: (fault.file, fault.line)))
