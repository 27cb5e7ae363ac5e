"""rules/infection.yaml: the weather that lets diseases infect."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from service.domain.disorder import STAGES
from service.domain.infection import InfectionConditions
from service.knowledge.entry import Entry
from service.knowledge.listed import cited_sources, read_listed

FILE = "infection.yaml"


def read_infection(
    folder: Path, *, sources: Collection[str], disorders: Collection[str]
) -> Mapping[str, InfectionConditions]:
    """The conditions by id, in the order of the file."""
    return read_listed(folder, FILE, lambda entry: _conditions(entry, disorders), sources=sources)


def _conditions(entry: Entry, disorders: Collection[str]) -> InfectionConditions:
    entry.known(("id", "disorder", "meaning", "stages", "wet_hours", "least_rain_in", "from_memory", "sources"))
    return InfectionConditions(
        id=entry.text("id"),
        disorder=entry.choice("disorder", disorders),
        meaning=entry.text("meaning"),
        stages=entry.texts("stages", STAGES),
        wet_hours=_table(entry),
        least_rain_in=entry.number("least_rain_in"),
        from_memory=entry.flag("from_memory"),
        sources=cited_sources(entry),
    )


def _table(entry: Entry) -> tuple[tuple[float, float], ...]:
    """The rows of temperature and hours, which must grow warmer."""
    rows: list[tuple[float, float]] = []
    for row in entry.each("wet_hours"):
        row.known(("at_f", "hours"))
        at_f, hours = row.number("at_f"), row.number("hours")
        if at_f is None or hours is None:
            row.fail("a row needs “at_f” and “hours”")
        if rows and at_f <= rows[-1][0]:
            row.fail("each row must be warmer than the one before it", "at_f")
        rows.append((at_f, hours))
    if not rows:
        entry.fail("the key “wet_hours” is missing")
    return tuple(rows)
