"""The pruning question and its answer, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Literal, get_args

from service.compute.harvest import Window
from service.compute.pruning_window import Days, Standing
from service.compute.renovation import RenovationYear
from service.domain.climate import ClimateSummary
from service.domain.cut import Cut
from service.domain.pruned_tree import GraftedVariety, PrunedTree
from service.domain.site import Site
from service.reasoning.conclusions import Judgement
from service.reasoning.vocabulary import Value

Facts = Mapping[str, Value]
WindowName = Literal["main", "early_summer", "after_harvest", "late_summer"]
WINDOWS: tuple[WindowName, ...] = get_args(WindowName)


@dataclass(frozen=True, slots=True)
class WeatherAhead:
    """The weather now and in the forecast; what nobody looked up is None."""

    wet: bool | None = None
    dry_days_ahead: int | None = None
    high_f: float | None = None
    low_f: float | None = None


@dataclass(frozen=True, slots=True)
class PruningQuestion:
    """What is cut on this tree? Without a date the answer tells the days and leaves open whether it is one of them."""

    tree: PrunedTree
    date: date | None = None
    site: Site = field(default_factory=Site)
    climate: ClimateSummary | None = None
    weather: WeatherAhead = field(default_factory=WeatherAhead)


@dataclass(frozen=True, slots=True)
class DatedWindow:
    """Days for a kind of cuts: `days` is None where the place leaves none, `standing` and dates where no day is asked.

    `narrowed_by` says what took days off: harvest, rain or frost.
    """

    days: Days | None
    standing: Standing | None
    opens: date | None = None
    closes: date | None = None
    narrowed_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class JudgedCut:
    """A kind of cut judged for this tree."""

    cut: Cut
    judgement: Judgement

    @property
    def called_for(self) -> bool:
        """Whether some rule asks for the cut, or against it."""
        return self.season is not None or self.refused

    @property
    def season(self) -> str | None:
        """The days that the cut belongs to."""
        season = self.judgement.concluded.get("cut_season")
        return season if isinstance(season, str) else None

    @property
    def refused(self) -> bool:
        """Whether it is never to be made on this tree."""
        judgement = self.judgement
        return judgement.set_aside or judgement.forbidden or judgement.concluded.get("cut_verdict") == "never"

    @property
    def verdict(self) -> str | None:
        """Never, wait or now; None where the day, or what the day allows, is unknown."""
        if self.refused:
            return "never"
        verdict = self.judgement.concluded.get("cut_verdict")
        return verdict if isinstance(verdict, str) else None


@dataclass(frozen=True, slots=True)
class JudgedVariety:
    """One of several varieties on the tree."""

    variety: GraftedVariety
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class JudgedYear:
    """One year of bringing the tree down."""

    step: RenovationYear
    judgement: Judgement


@dataclass(frozen=True, slots=True)
class PruningAnswer:
    """The plan: the tree as a whole, the day, each cut in the order of work, varieties, years, wires."""

    question: PruningQuestion
    site: Site
    harvest: Window | None
    tree: Judgement
    season: Judgement
    windows: Mapping[WindowName, DatedWindow]
    cuts: tuple[JudgedCut, ...]
    varieties: tuple[JudgedVariety, ...]
    renovation: tuple[JudgedYear, ...]
    wires_in: tuple[float, ...]
    training: str | None
    not_judged: tuple[str, ...]
