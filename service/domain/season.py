"""The year of a tree: its stages, the regions whose bloom is known, and the tasks that a year may hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, get_args

from service.domain.cut import Wording

Stage = Literal[
    "dormant", "delayed_dormant", "bud_swell", "pink", "bloom", "petal_fall", "fruit_set", "shuck_split", "june_drop",
    "pit_hardening", "fruit_sizing", "harvest", "postharvest", "leaf_fall",
]  # fmt: skip
TaskKind = Literal[
    "planting", "bloom", "frost", "pruning", "feeding", "water", "thinning", "pests", "protection", "harvest",
    "sanitation",
]  # fmt: skip
STAGES: tuple[Stage, ...] = get_args(Stage)
TASK_KINDS: tuple[TaskKind, ...] = get_args(TaskKind)


@dataclass(frozen=True, slots=True)
class StageSpan:
    """When a stage runs, in days after full bloom (below zero before it), or between two other stages.

    `bud_stages` are the stages of rules/frost.yaml that fall into it.
    """

    stage: Stage
    from_days: float | None = None
    to_days: float | None = None
    between: tuple[Stage, Stage] | None = None
    bud_stages: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class Region:
    """A region and the days of the season between which each crop is usually in full bloom there."""

    id: str
    name: Wording
    full_bloom: Mapping[str, tuple[int, int]]
    sources: tuple[str, ...]
    from_memory: bool = False


@dataclass(frozen=True, slots=True)
class SeasonTask:
    """One task that a year may hold: the part of the work it belongs to, and what it is called."""

    id: str
    kind: TaskKind
    what: Wording
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeasonKnowledge:
    """What is known of the year: stages by crop, regions and tasks by id, each in the order of its file."""

    stages: Mapping[str, tuple[StageSpan, ...]] = field(default_factory=dict)
    regions: Mapping[str, Region] = field(default_factory=dict)
    tasks: Mapping[str, SeasonTask] = field(default_factory=dict)
