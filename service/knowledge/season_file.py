"""rules/stages.yaml and rules/tasks.yaml: the stages of each crop, bloom by region, and the tasks of a year."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar, cast

from service.domain.cut import Wording
from service.domain.month_day import day_of_season, read_month_day
from service.domain.season import STAGES, TASK_KINDS, Region, SeasonKnowledge, SeasonTask, Stage, StageSpan, TaskKind
from service.knowledge.entry import Entry, read_file

STAGES_FILE, TASKS_FILE = "stages.yaml", "tasks.yaml"
_SPAN_KEYS = ("stage", "from_days", "to_days", "between", "bud_stages", "sources", "basis", "from_memory")
Named = TypeVar("Named", Region, SeasonTask)


def read_season(folder: Path, *, sources: Collection[str], crops: Collection[str]) -> SeasonKnowledge:
    """What is known of the year; a folder without the files knows nothing of it."""
    if not (folder / STAGES_FILE).exists():
        return SeasonKnowledge()
    top = read_file(folder, STAGES_FILE, sources)
    top.known(("stages", "regions"))
    tasks = read_file(folder, TASKS_FILE, sources)
    tasks.known(("tasks",))
    return SeasonKnowledge(
        stages=_stages(top, crops),
        regions=_by_id([(_region(entry, crops), entry) for entry in top.each("regions")]),
        tasks=_by_id([(_task(entry), entry) for entry in tasks.each("tasks")]),
    )


def _stages(top: Entry, crops: Collection[str]) -> Mapping[str, tuple[StageSpan, ...]]:
    found: dict[str, tuple[StageSpan, ...]] = {}
    for group in top.each("stages"):
        group.known(("crops", "spans"))
        spans = tuple(_span(entry) for entry in group.each("spans"))
        for crop in group.texts("crops", crops):
            if crop in found:
                group.fail(f"the stages of “{crop}” stand twice", "crops")
            found[crop] = spans
    return MappingProxyType(found)


def _span(entry: Entry) -> StageSpan:
    entry.known(_SPAN_KEYS)
    between = entry.texts("between", STAGES)
    days = (entry.number("from_days"), entry.number("to_days"))
    if between and (len(between) != 2 or days != (None, None)):
        entry.fail("“between” names two stages and stands without days", "between")
    if not between and None in days:
        entry.fail("a stage needs “from_days” and “to_days”, or “between”")
    cited = entry.texts("sources", entry.sources)
    if not between and not cited and entry.optional_text("basis") != "common practice":
        entry.fail("days need at least one id under “sources”, or “basis: common practice”")
    return StageSpan(
        stage=cast(Stage, entry.choice("stage", STAGES)),
        from_days=days[0],
        to_days=days[1],
        between=cast("tuple[Stage, Stage]", between) if between else None,
        bud_stages=entry.texts("bud_stages"),
        sources=cited,
        from_memory=entry.flag("from_memory"),
    )


def _region(entry: Entry, crops: Collection[str]) -> Region:
    entry.name = entry.text("id")
    entry.known(("id", "name", "full_bloom", "sources", "from_memory"))
    blooms = entry.inner("full_bloom")
    if blooms is None:
        entry.fail("the key “full_bloom” is missing")
    blooms.known(crops)
    return Region(
        id=entry.name,
        name=wording(entry, "name"),
        full_bloom={crop: _days(blooms, crop) for crop in blooms.mapping},
        sources=_cited(entry),
        from_memory=entry.flag("from_memory"),
    )


def _days(entry: Entry, crop: str) -> tuple[int, int]:
    texts = entry.texts(crop)
    if len(texts) != 2:
        entry.fail("bloom needs a first and a last day", crop)
    try:
        first, last = (day_of_season(read_month_day(text)) for text in texts)
    except ValueError as fault:
        entry.fail(str(fault), crop)
    return first, last


def _task(entry: Entry) -> SeasonTask:
    entry.name = entry.text("id")
    entry.known(("id", "kind", "what", "sources"))
    kind = cast(TaskKind, entry.choice("kind", TASK_KINDS))
    return SeasonTask(entry.name, kind, wording(entry, "what"), _cited(entry))


def _cited(entry: Entry) -> tuple[str, ...]:
    return entry.texts("sources", entry.sources) or entry.fail("at least one id is needed under “sources”")


def wording(entry: Entry, key: str) -> Wording:
    """A phrase in English and in Spanish under a key that must be there."""
    inner = entry.inner(key)
    if inner is None:
        entry.fail(f"the key “{key}” is missing")
    inner.known(("text", "text_es"))
    return Wording(inner.text("text"), inner.text("text_es"))


def _by_id(read: list[tuple[Named, Entry]]) -> Mapping[str, Named]:
    found: dict[str, Named] = {}
    for value, entry in read:
        if value.id in found:
            entry.fail(f"the id “{value.id}” stands twice", "id")
        found[value.id] = value
    return MappingProxyType(found)
