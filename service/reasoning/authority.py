"""On whose authority something stands: the sources cited, or common practice."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from service.reasoning.entry import Entry
from service.reasoning.words import instead

COMMON_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a source; `from_memory` says that nobody saw the figure in the publication."""

    ref: str
    where: str
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Authority:
    """The citations and, where practice alone carries a statement, the basis."""

    sources: tuple[Citation, ...]
    basis: str | None


def read_authority(entry: Entry, *, sources: Collection[str]) -> Authority:
    """The source and basis of an entry; one of them must be there."""
    if "source" not in entry and "basis" not in entry:
        raise entry.fault(
            "it says nowhere on whose authority; write source: [{ref: a source id, where: the page or table}]"
            " or basis: common practice"
        )
    cited = tuple(_citation(item, sources) for item in entry.each("source")) if "source" in entry else ()
    return Authority(cited, _basis(entry) if "basis" in entry else None)


def _citation(item: Entry, sources: Collection[str]) -> Citation:
    item.only("ref", "where", "from_memory")
    ref = item.text("ref")
    if ref not in sources:
        raise item.fault(f"there is no source '{ref}' in sources.yaml{instead(ref, sources)}", key="ref")
    return Citation(ref, item.text("where"), item.flag("from_memory"))


def _basis(entry: Entry) -> str:
    basis = entry.text("basis")
    if basis != COMMON_PRACTICE:
        raise entry.fault(f"'basis' is '{basis}'; the only basis without a source is: {COMMON_PRACTICE}", key="basis")
    return basis
