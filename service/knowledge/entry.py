"""One entry of a reference file, read strictly: what is missing, unknown or of the wrong type is a fault with its line.

A reader asks an `Entry` for each key that it knows and leaves every sentence about faults to it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path
from typing import NoReturn, TypeVar

from rapidfuzz import process

from service.domain.errors import KnowledgeFault
from service.knowledge import strict_yaml

T = TypeVar("T")
_NEAR_ENOUGH = 60
_KIND_NAMES: dict[type, str] = {str: "text", bool: "true or false", int: "a whole number", list: "a list"}


def nearest(word: str, right: Collection[str]) -> str:
    """A clause that offers the right word nearest to a wrong one, or nothing when none is near.

    >>> nearest("bloem", ["bloom", "ripening"])
    '; did you mean “bloom”?'
    >>> nearest("xyz", ["bloom"])
    ''
    """
    found = process.extractOne(word, sorted(right), score_cutoff=_NEAR_ENOUGH)
    return f"; did you mean “{found[0]}”?" if found else ""


class Entry:
    """A mapping of a file together with the name that faults give it and the sources that it may cite."""

    def __init__(
        self, mapping: strict_yaml.Mapping, file: str, *, name: str | None = None, sources: Collection[str] = ()
    ) -> None:
        self.mapping, self.file, self.name, self.sources = mapping, file, name, sources

    def line(self, key: str | None = None) -> int:
        """The line of a key, or of the entry itself."""
        return self.mapping.key_lines.get(key, self.mapping.line) if key else self.mapping.line

    def fail(self, what: str, key: str | None = None) -> NoReturn:
        """Raise the fault at a key, or at the entry itself."""
        raise KnowledgeFault(self.file, self.line(key), what, entry=self.name)

    def known(self, keys: Collection[str]) -> None:
        """Refuse every key that is not among these."""
        for key in self.mapping:
            if key not in keys:
                self.fail(f"“{key}” is not a known key{nearest(key, keys)}", key)

    def text(self, key: str) -> str:
        """The text under a key that must be there."""
        value = self.optional_text(key)
        return value if value is not None else self.fail(f"the key “{key}” is missing")

    def optional_text(self, key: str) -> str | None:
        """The text under a key, or None where the key is missing."""
        return self._typed(key, str) or None

    def flag(self, key: str) -> bool:
        """The true or false under a key; a missing key is false."""
        return bool(self._typed(key, bool))

    def whole(self, key: str) -> int | None:
        """The whole number under a key, or None where the key is missing."""
        value = self._typed(key, int)
        return value if not isinstance(value, bool) else self.fail(f"“{key}” must be a whole number", key)

    def number(self, key: str) -> float | None:
        """The number under a key, or None where the key is missing."""
        value = self.mapping.get(key)
        if value is None or (isinstance(value, int | float) and not isinstance(value, bool)):
            return value
        self.fail(f"“{key}” must be a number, not {value!r}", key)

    def choice(self, key: str, values: Collection[str]) -> str:
        """The word under a key, which must be one of these."""
        word = self.text(key)
        if word not in values:
            self.fail(f"“{word}” is not one of {', '.join(values)}{nearest(word, values)}", key)
        return word

    def texts(self, key: str, values: Collection[str] | None = None) -> tuple[str, ...]:
        """The list of texts under a key, each one of `values` where these are given; a missing key is an empty list."""
        items = self._typed(key, list) or []
        for word in items:
            if not isinstance(word, str):
                self.fail(f"“{key}” holds {word!r}, which is not text; put it in quotes", key)
            if values is not None and word not in values:
                self.fail(f"“{word}” is not known here{nearest(word, values)}", key)
        return tuple(items)

    def inner(self, key: str) -> Entry | None:
        """The mapping under a key as an entry, or None where the key is missing."""
        value = self._typed(key, strict_yaml.Mapping)
        return None if value is None else self._within(value)

    def each(self, key: str) -> Iterator[Entry]:
        """The mappings in the list under a key; a missing key holds none."""
        for item in self._typed(key, list) or []:
            if not isinstance(item, strict_yaml.Mapping):
                self.fail(f"“{key}” holds {item!r}, which is not a mapping", key)
            yield self._within(item)

    def _within(self, mapping: strict_yaml.Mapping) -> Entry:
        return Entry(mapping, self.file, name=self.name, sources=self.sources)

    def _typed(self, key: str, kind: type[T]) -> T | None:
        value = self.mapping.get(key)
        if value is None and key in self.mapping:
            self.fail(f"“{key}” is empty; leave the key out where nothing is known", key)
        if value is not None and not isinstance(value, kind):
            self.fail(f"“{key}” must be {_KIND_NAMES.get(kind, 'a mapping')}, not {value!r}", key)
        return value


def read_file(folder: Path, file: str, sources: Collection[str] = ()) -> Entry:
    """The mapping that a file of the folder holds, shown in faults by its name below the folder."""
    value = strict_yaml.read(folder / file, shown_as=file)
    if not isinstance(value, strict_yaml.Mapping):
        raise KnowledgeFault(file, 1, "the file must hold a mapping")
    return Entry(value, file, sources=sources)
