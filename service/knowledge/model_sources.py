"""Reads the publications behind a computation, or the word that common practice alone stands behind it."""

from __future__ import annotations

from service.domain.climate import ModelSource
from service.knowledge.entry import Entry

COMMON_PRACTICE = "common practice"


def read_model_sources(entry: Entry, model: str) -> tuple[ModelSource, ...]:
    """The citations under `source`; without one the entry must say `basis: common practice`."""
    if not entry.mapping.get("source"):
        entry.choice("basis", (COMMON_PRACTICE,))
    return tuple(_cited(cited, model) for cited in entry.each("source"))


def _cited(cited: Entry, model: str) -> ModelSource:
    cited.known(("ref", "where", "from_memory"))
    ref = cited.choice("ref", cited.sources)
    return ModelSource(model, ref, cited.text("where"), cited.flag("from_memory"))
