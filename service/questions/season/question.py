"""The season question and its answer, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta

from service.compute.feeding import Nitrogen
from service.compute.phenology import Bloom, Mark
from service.domain.climate import ClimateSummary
from service.domain.season import SeasonTask
from service.domain.season_tree import District, SeasonTree, Soil
from service.domain.site import Site
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]
PLANNED_DAYS = 365


@dataclass(frozen=True, slots=True)
class Ground:
    """What else is told of the place: region, district, coast, soil, and reference evapotranspiration by month."""

    region: str | None = None
    district: District | None = None
    coast: bool | None = None
    soil: Soil | None = None
    et0_in: Mapping[int, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SeasonQuestion:
    """What is done to these trees in the twelve months from `start` on?

    `plan` tells one customer's plan from another's, so that their calendars do not overwrite one another.
    """

    trees: tuple[SeasonTree, ...]
    start: date
    site: Site = field(default_factory=Site)
    ground: Ground = field(default_factory=Ground)
    climate: ClimateSummary | None = None
    fertiliser_percent: float | None = None
    plan: str = ""

    @property
    def end(self) -> date:
        """The first day that is no longer planned."""
        return self.start + timedelta(days=PLANNED_DAYS)


@dataclass(frozen=True, slots=True)
class DatedStage:
    """A stage within the planned months; `judgement` is that on frost, where temperatures are published."""

    stage: str
    mark: Mark
    season: int
    kill_10_f: float | None = None
    kill_90_f: float | None = None
    judgement: Judgement | None = None


@dataclass(frozen=True, slots=True)
class DatedTask:
    """A task that some rule calls for; `mark` is None where its days hang on a stage that nobody can date."""

    task: SeasonTask
    judgement: Judgement
    mark: Mark | None
    season: int | None

    @property
    def standing(self) -> str:
        """Whether it is done, done where the trouble shows, or left alone."""
        return str(self.judgement.concluded["task_standing"])

    @property
    def every_days(self) -> float | None:
        """Days after which it is done again."""
        days = self.judgement.concluded.get("every_days")
        return float(days) if isinstance(days, int | float) else None


@dataclass(frozen=True, slots=True)
class Fed:
    """Nitrogen for the year, over how many doses, and how much of the customer's fertiliser one dose is."""

    nitrogen: Nitrogen | None
    doses: int
    product_oz: float | None


@dataclass(frozen=True, slots=True)
class WaterMonth:
    """What the tree draws in one month."""

    year: int
    month: int
    gallons_a_day: float
    gallons_each_time: float | None
    basis: str
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class TreeYear:
    """The year of one tree."""

    tree: SeasonTree
    bloom: Bloom | None
    bloom_basis: str
    judgement: Judgement
    stages: tuple[DatedStage, ...]
    tasks: tuple[DatedTask, ...]
    undated: tuple[DatedTask, ...]
    fed: Fed
    water: tuple[WaterMonth, ...]
    not_judged: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SeasonAnswer:
    """The year of each tree, in the order in which they were told."""

    question: SeasonQuestion
    site: Site
    trees: tuple[TreeYear, ...]

    @property
    def not_judged(self) -> tuple[str, ...]:
        """What one more answer would change, for any of the trees."""
        return tuple(dict.fromkeys(name for tree in self.trees for name in tree.not_judged))
