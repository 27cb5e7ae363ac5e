"""A phrase that people read, in English and in Spanish: {text: …, text_es: …}."""

from __future__ import annotations

from service.domain.cut import Wording
from service.knowledge.entry import Entry


def wording(entry: Entry, key: str) -> Wording:
    """The phrase under a key that must be there."""
    inner = entry.inner(key)
    if inner is None:
        entry.fail(f"the key “{key}” is missing")
    inner.known(("text", "text_es"))
    return Wording(inner.text("text"), inner.text("text_es"))
