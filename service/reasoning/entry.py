"""One entry of a rules file with its place, so that every message can say file, line and name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from service.domain.errors import KnowledgeFault
from service.knowledge import strict_yaml
from service.reasoning.words import instead


@dataclass(frozen=True, slots=True)
class Entry:
    """A mapping from a strictly read file; `name` is how messages call it (the rule's id, the limit's name)."""

    file: str
    data: Any
    name: str | None = None

    def __contains__(self, key: str) -> bool:
        return key in self.data

    def line(self, key: str | None = None) -> int:
        """The line of a key, or of the entry itself."""
        return int(self.data.key_lines.get(key, self.data.line) if key else self.data.line)

    def fault(self, what: str, *, key: str | None = None) -> KnowledgeFault:
        """A fault at the line of a key."""
        return KnowledgeFault(self.file, self.line(key), what, entry=self.name)

    def only(self, *allowed: str) -> None:
        """Refuses a key that has no meaning here."""
        for key in self.data:
            if key not in allowed:
                raise self.fault(f"'{key}' has no meaning here{instead(key, allowed)}", key=key)

    def text(self, key: str) -> str:
        """A text that must be there and not be empty."""
        value = self.data.get(key)
        if not isinstance(value, str) or not value.strip():
            raise self.fault(f"'{key}' must be a text; write {key}: and a few words", key=key)
        return value

    def number(self, key: str) -> float:
        """A number that must be there."""
        value = self.data.get(key)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.fault(f"'{key}' must be a number, not {value!r}", key=key)
        return value

    def flag(self, key: str, *, default: bool = False) -> bool:
        """True or false, with a default where the key is absent."""
        value = self.data.get(key, default)
        if not isinstance(value, bool):
            raise self.fault(f"'{key}' must be true or false, not {value!r}", key=key)
        return value

    def date(self, key: str) -> date:
        """A day written as 2026-11-25."""
        value = self.data.get(key)
        try:
            return date.fromisoformat(value)
        except (TypeError, ValueError):
            raise self.fault(f"'{key}' must be a date such as 2026-11-25, not {value!r}", key=key) from None

    def words(self, key: str) -> tuple[str, ...]:
        """A list of texts, at least one, none twice."""
        value = self.data.get(key)
        if not isinstance(value, list) or not value or not all(isinstance(item, str) for item in value):
            raise self.fault(f"'{key}' must be a list of words, such as {key}: [one, two]", key=key)
        if len(set(value)) != len(value):
            raise self.fault(f"'{key}' names a word twice; keep one", key=key)
        return tuple(value)

    def inner(self, key: str) -> Entry:
        """The mapping under a key."""
        value = self.data.get(key)
        if not isinstance(value, strict_yaml.Mapping):
            raise self.fault(f"'{key}' must hold lines of the form name: value", key=key)
        return Entry(self.file, value, self.name)

    def each(self, key: str) -> Iterator[Entry]:
        """The mappings in the list under a key."""
        value = self.data.get(key)
        if not isinstance(value, list) or not value:
            raise self.fault(f"'{key}' must be a list with at least one entry", key=key)
        for item in value:
            if not isinstance(item, strict_yaml.Mapping):
                raise self.fault(f"each entry of '{key}' must hold lines of the form name: value", key=key)
            yield Entry(self.file, item, self.name)


def read_entry(path: Path, *, root: Path) -> Entry:
    """The one mapping of a file, shown in messages by its path from the folder that holds `root`."""
    shown = (Path(root.name) / path.relative_to(root)).as_posix()
    data = strict_yaml.read(path, shown_as=shown)
    if not isinstance(data, strict_yaml.Mapping):
        raise KnowledgeFault(shown, 1, "the file must hold lines of the form name: value")
    return Entry(shown, data)


def named_entries(top: Entry, key: str) -> Iterator[Entry]:
    """The named mappings under a key of a file, each called by its own name in messages."""
    top.only(key)
    if key not in top:
        raise top.fault(f"the file must begin with '{key}:'")
    group = top.inner(key)
    for name, value in group.data.items():
        if not isinstance(value, strict_yaml.Mapping):
            raise group.fault(f"'{name}' must hold lines of the form name: value", key=name)
        yield Entry(top.file, value, name)
