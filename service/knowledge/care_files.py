"""rules/samples.yaml, conditions.yaml, measures.yaml: what the disorders refer to by id.

A sample protocol says how to take and pack what is brought; a condition is what favours a disorder; a measure is what
can be done about it without a product.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import cast

from service.domain.cut import Wording
from service.domain.disorder import (
    CONDITION_KINDS,
    MEASURE_KINDS,
    Condition,
    ConditionKind,
    Measure,
    MeasureKind,
    SampleProtocol,
)
from service.knowledge.entry import Entry
from service.knowledge.listed import cited_sources, read_listed
from service.knowledge.wording import wording


def read_samples(folder: Path, *, sources: Collection[str]) -> Mapping[str, SampleProtocol]:
    """The protocols for samples by id."""
    return read_listed(folder, "samples.yaml", _sample, sources=sources)


def read_conditions(folder: Path) -> Mapping[str, Condition]:
    """What favours disorders, by id."""
    return read_listed(folder, "conditions.yaml", _condition)


def read_measures(folder: Path) -> Mapping[str, Measure]:
    """What can be done without a product, by id."""
    return read_listed(folder, "measures.yaml", _measure)


def _sample(entry: Entry) -> SampleProtocol:
    entry.known(("id", "how", "too_late", "sources", "recalled"))
    return SampleProtocol(
        id=entry.text("id"),
        how=wording(entry, "how"),
        too_late=wording(entry, "too_late"),
        sources=cited_sources(entry),
        recalled=entry.texts("recalled", ("how", "too_late")),
    )


def _condition(entry: Entry) -> Condition:
    entry.known(("id", "about", "text", "text_es"))
    about = cast(ConditionKind, entry.choice("about", CONDITION_KINDS))
    return Condition(entry.text("id"), about, Wording(entry.text("text"), entry.text("text_es")))


def _measure(entry: Entry) -> Measure:
    entry.known(("id", "kind", "text", "text_es"))
    kind = cast(MeasureKind, entry.choice("kind", MEASURE_KINDS))
    return Measure(entry.text("id"), kind, Wording(entry.text("text"), entry.text("text_es")))
