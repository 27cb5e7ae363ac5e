"""Reads rules/frost.yaml: the temperatures that kill buds and blossoms, by crop and stage."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from service.domain.bud_kill import BudKill, BudStage
from service.knowledge.entry import Entry, read_file
from service.knowledge.model_sources import read_model_sources

FILE = "frost.yaml"
_STAGE_KEYS = ("stage", "kill_10_percent_f", "kill_90_percent_f", "older_standard_f", "from_memory")


def read_bud_kill(folder: Path, sources: Collection[str]) -> Mapping[str, BudKill]:
    """The stages of each crop by its id."""
    top = read_file(folder, FILE, sources)
    top.known(("bud_kill",))
    crops = top.inner("bud_kill")
    if crops is None:
        top.fail("the key “bud_kill” is missing")
    return {crop: _crop(crops, crop) for crop in crops.mapping}


def _crop(crops: Entry, crop: str) -> BudKill:
    entry = crops.inner(crop)
    assert entry is not None  # the key comes from the mapping itself
    entry.name = crop
    entry.known(("source", "stages"))
    stages = tuple(_stage(row) for row in entry.each("stages"))
    try:
        return BudKill(crop, stages, read_model_sources(entry, "bud_kill"))
    except ValueError as fault:
        entry.fail(str(fault), "stages")


def _stage(row: Entry) -> BudStage:
    row.known(_STAGE_KEYS)
    kill_10 = row.number("kill_10_percent_f")
    return BudStage(
        stage=row.text("stage"),
        kill_10_percent_f=kill_10 if kill_10 is not None else row.fail("the number “kill_10_percent_f” is missing"),
        kill_90_percent_f=row.number("kill_90_percent_f"),
        older_standard_f=row.number("older_standard_f"),
        from_memory=row.flag("from_memory"),
    )
