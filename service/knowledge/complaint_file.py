"""rules/complaints.yaml: what customers say at the counter, and what may be behind it."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import cast

from service.domain.complaint import COMPLAINT_GROUPS, Cause, Complaint, ComplaintGroup
from service.domain.disorder import Disorder
from service.knowledge.entry import Entry, nearest
from service.knowledge.listed import cited_sources, read_listed

FILE = "complaints.yaml"
_KEYS = ("id", "group", "name", "name_es", "says", "says_es", "crops", "shows", "ask_for", "causes")


def read_complaints(
    folder: Path, disorders: Mapping[str, Disorder], *, words: tuple[Collection[str], Collection[str]],
    sources: Collection[str],
) -> Mapping[str, Complaint]:  # fmt: skip
    """The complaints by id; `words` are the crops and the signs that they may name."""
    return read_listed(folder, FILE, lambda entry: _complaint(entry, disorders, words), sources=sources)


def _complaint(
    entry: Entry, disorders: Mapping[str, Disorder], words: tuple[Collection[str], Collection[str]]
) -> Complaint:
    entry.known(_KEYS)
    crops, signs = words
    return Complaint(
        id=entry.text("id"),
        group=cast(ComplaintGroup, entry.choice("group", COMPLAINT_GROUPS)),
        name=entry.text("name"),
        name_es=entry.text("name_es"),
        says=entry.texts("says") or entry.fail("a complaint needs the words of customers under “says”"),
        says_es=entry.texts("says_es") or entry.fail("a complaint needs the words of customers under “says_es”"),
        crops=entry.texts("crops", crops),
        shows=entry.texts("shows", signs),
        signs=entry.texts("ask_for", signs),
        causes=tuple(_cause(cause, disorders) for cause in entry.each("causes")),
    )


def _cause(entry: Entry, disorders: Mapping[str, Disorder]) -> Cause:
    entry.known(("disorder", "name", "name_es", "sources", "from_memory"))
    cited, recalled, named = cited_sources(entry), entry.flag("from_memory"), entry.optional_text("disorder")
    if named is None:
        return Cause(None, entry.text("name"), entry.text("name_es"), cited, recalled)
    if named not in disorders:
        entry.fail(f"“{named}” is not a disorder{nearest(named, disorders)}", "disorder")
    return Cause(named, disorders[named].name, disorders[named].name_es, cited, recalled)
