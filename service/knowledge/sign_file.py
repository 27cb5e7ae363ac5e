"""rules/signs.yaml: the signs that a person can find on a sick tree, with the question that asks for each."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import cast

from service.domain.sign import PARTS, TOOLS, Part, Sign, Tool
from service.knowledge.entry import Entry
from service.knowledge.listed import read_listed

FILE = "signs.yaml"
_KEYS = ("id", "part", "name", "name_es", "ask", "ask_es", "synonyms", "synonyms_es", "needs")


def read_signs(folder: Path) -> Mapping[str, Sign]:
    """The signs by id, in the order of the file."""
    return read_listed(folder, FILE, _sign)


def _sign(entry: Entry) -> Sign:
    entry.known(_KEYS)
    for key in ("ask", "ask_es"):
        if not entry.text(key).endswith("?"):
            entry.fail("a question ends in “?”", key)
    return Sign(
        id=entry.text("id"),
        part=cast(Part, entry.choice("part", PARTS)),
        name=entry.text("name"),
        name_es=entry.text("name_es"),
        ask=entry.text("ask"),
        ask_es=entry.text("ask_es"),
        synonyms=entry.texts("synonyms"),
        synonyms_es=entry.texts("synonyms_es"),
        needs=cast(Tool, entry.choice("needs", TOOLS)) if "needs" in entry.mapping else None,
    )
