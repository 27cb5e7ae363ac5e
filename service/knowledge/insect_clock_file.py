"""rules/insect_clocks.yaml: how many degree days bring an insect to its harm."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from service.domain.insect_clock import InsectClock
from service.knowledge.entry import Entry
from service.knowledge.listed import cited_sources, read_listed
from service.knowledge.wording import wording

FILE = "insect_clocks.yaml"
_KEYS = ("id", "disorder", "starts", "lower_f", "upper_f", "from_f_days", "until_f_days", "from_memory", "sources")


def read_insect_clocks(
    folder: Path, *, sources: Collection[str], disorders: Collection[str]
) -> Mapping[str, InsectClock]:
    """The clocks by the disorder that they are for."""
    read = read_listed(folder, FILE, lambda entry: _clock(entry, disorders), sources=sources)
    return {clock.disorder: clock for clock in read.values()}


def _clock(entry: Entry, disorders: Collection[str]) -> InsectClock:
    entry.known(_KEYS)
    lower_f, upper_f = _needed(entry, "lower_f"), _needed(entry, "upper_f")
    if lower_f >= upper_f:
        entry.fail("“upper_f” must lie above “lower_f”", "upper_f")
    return InsectClock(
        id=entry.text("id"),
        disorder=entry.choice("disorder", disorders),
        starts=wording(entry, "starts"),
        lower_f=lower_f,
        upper_f=upper_f,
        from_f_days=_needed(entry, "from_f_days"),
        until_f_days=entry.number("until_f_days"),
        from_memory=entry.flag("from_memory"),
        sources=cited_sources(entry),
    )


def _needed(entry: Entry, key: str) -> float:
    value = entry.number(key)
    return value if value is not None else entry.fail(f"the key “{key}” is missing")
