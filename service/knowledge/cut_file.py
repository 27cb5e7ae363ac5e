"""rules/cuts.yaml: the kinds of cut, in the order in which they are made at the tree."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import cast

from service.domain.cut import CUT_KINDS, Cut, CutKind
from service.knowledge.entry import Entry, read_file
from service.knowledge.wording import wording

FILE = "cuts.yaml"


def read_cuts(folder: Path, *, sources: Collection[str]) -> Mapping[str, Cut]:
    """The kinds of cut by id, in the order of the file; a folder without the file knows none."""
    if not (folder / FILE).exists():
        return MappingProxyType({})
    file = read_file(folder, FILE, sources)
    file.known(("cuts",))
    cuts: dict[str, Cut] = {}
    for entry in file.each("cuts"):
        cut = _cut(entry)
        if cut.id in cuts:
            entry.fail(f"the id “{cut.id}” stands twice", "id")
        cuts[cut.id] = cut
    return MappingProxyType(cuts)


def _cut(entry: Entry) -> Cut:
    entry.name = entry.text("id")
    entry.known(("id", "kind", "what", "where", "living", "sources"))
    cited = entry.texts("sources", entry.sources)
    if not cited:
        entry.fail("a cut needs at least one id under “sources”")
    return Cut(
        id=entry.name,
        kind=cast(CutKind, entry.choice("kind", CUT_KINDS)),
        what=wording(entry, "what"),
        where=wording(entry, "where"),
        living=entry.flag("living"),
        sources=cited,
    )
