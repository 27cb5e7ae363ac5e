"""rules/sources.yaml: every publication that the other files cite."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from service.domain.source import Source
from service.knowledge.entry import Entry, read_file

FILE = "sources.yaml"
_KEYS = ("id", "title", "publisher", "authors", "year", "number", "url", "confirmed")


def read_sources(folder: Path) -> Mapping[str, Source]:
    """The sources by id."""
    file = read_file(folder, FILE)
    file.known(("sources",))
    sources: dict[str, Source] = {}
    for entry in file.each("sources"):
        source = _source(entry)
        if source.id in sources:
            entry.fail(f"the source “{source.id}” stands twice", "id")
        sources[source.id] = source
    return MappingProxyType(sources)


def _source(entry: Entry) -> Source:
    entry.name = entry.text("id")
    entry.known(_KEYS)
    return Source(
        id=entry.name,
        title=entry.text("title"),
        publisher=entry.text("publisher"),
        authors=entry.optional_text("authors"),
        year=entry.whole("year"),
        number=entry.optional_text("number"),
        url=entry.optional_text("url"),
        confirmed=entry.optional_text("confirmed"),
    )
