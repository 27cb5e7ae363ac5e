"""Cautions that stand beside advice: ladders, power lines, digging. Rules name them by id."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from service.reasoning.authority import Authority, read_authority
from service.reasoning.entry import Entry, named_entries, read_entry
from service.reasoning.faults import Faults


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution in English and Spanish, and when it is shown."""

    id: str
    text: str
    text_es: str
    when_shown: str
    authority: Authority


def read_cautions(path: Path, *, root: Path, sources: Collection[str]) -> Mapping[str, Caution]:
    """All cautions of a file; a file that is not there holds none."""
    if not path.exists():
        return {}
    faults, cautions = Faults(), dict[str, Caution]()
    for entry in named_entries(read_entry(path, root=root), "cautions"):
        with faults.kept():
            cautions[str(entry.name)] = _caution(entry, sources)
    faults.stop_if_any()
    return cautions


def _caution(entry: Entry, sources: Collection[str]) -> Caution:
    entry.only("text", "text_es", "when_shown", "source", "basis")
    return Caution(
        id=str(entry.name),
        text=entry.text("text"),
        text_es=entry.text("text_es"),
        when_shown=entry.text("when_shown"),
        authority=read_authority(entry, sources=sources),
    )
