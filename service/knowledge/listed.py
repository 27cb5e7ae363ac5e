"""A file that lists entries of one kind under one key, each with an id of its own."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Protocol, TypeVar

from service.knowledge.entry import Entry, read_file


class WithId(Protocol):
    """Anything that has an id."""

    @property
    def id(self) -> str:
        """The id."""


T = TypeVar("T", bound=WithId)


def read_listed(
    folder: Path, file: str, make: Callable[[Entry], T], *, sources: Collection[str] = ()
) -> Mapping[str, T]:
    """The entries by id, in the order of the file; the key is the name of the file. A missing file holds none."""
    found: dict[str, T] = {}
    if not (folder / file).exists():
        return MappingProxyType(found)
    key = Path(file).stem
    content = read_file(folder, file, sources)
    content.known((key,))
    for entry in content.each(key):
        entry.name = entry.text("id")
        value = make(entry)
        if value.id in found:
            entry.fail(f"the id “{value.id}” stands twice", "id")
        found[value.id] = value
    return MappingProxyType(found)


def cited_sources(entry: Entry) -> tuple[str, ...]:
    """The ids under “sources”, of which there is at least one."""
    return entry.texts("sources", entry.sources) or entry.fail("an entry needs at least one id under “sources”")
