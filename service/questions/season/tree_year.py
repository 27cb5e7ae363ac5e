"""The way of one tree through the season question: the tree, its stages, feeding and water, frost, then the tasks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from service.compute.phenology import Almanac, Bloom, Edge, Mark, first_within, season_of, task_mark
from service.domain.bud_kill import BudStage
from service.domain.climate_models import ClimateModels
from service.domain.season import STAGES, SeasonTask
from service.domain.season_tree import SeasonTree
from service.domain.site import Site
from service.questions.pruning.facts import known
from service.questions.season.blooming import Blooming
from service.questions.season.facts import bloom_facts, harvest_of, place_facts, stage_facts, tree_facts
from service.questions.season.feeding import fed, nitrogen_facts
from service.questions.season.gaps import unknown_of_year
from service.questions.season.marks import SeasonMarks
from service.questions.season.question import DatedStage, DatedTask, Facts, SeasonQuestion, TreeYear, WaterMonth
from service.questions.season.watering import Drawn, Watering
from service.reasoning.audit import audit
from service.reasoning.conclusions import Judgement
from service.reasoning.matcher import Matcher
from service.reasoning.rulebook import Rulebook
from service.reasoning.vocabulary import Value

_WEEK_DAYS = 7
_PASSED_ON: Mapping[str, str] = {"feeding": "plan.feeding", "winter_type": "plan.winter"}


@dataclass(frozen=True, slots=True)
class SeasonCase:
    """What the trees of one question share."""

    question: SeasonQuestion
    site: Site
    rulebook: Rulebook
    models: ClimateModels
    asking: Matcher
    et0_in: Mapping[int, tuple[float, str]]

    def judge(self, ruleset: str, facts: Facts) -> Judgement:
        """The judgement of a ruleset on those of the facts that it may test."""
        testable = self.rulebook.vocabulary.testable(ruleset)
        judgement = self.asking.judge(ruleset, {name: value for name, value in facts.items() if name in testable})
        audit.note(judgement)
        return judgement


class TreeWay:
    """One tree on its way to its year."""

    def __init__(self, case: SeasonCase, tree: SeasonTree) -> None:
        self.case, self.tree, self.southern = case, tree, case.site.southern
        question, rulebook = case.question, case.rulebook
        self.blooming = Blooming(tree, question, rulebook=rulebook, southern=self.southern)
        self.season = season_of(question.start, southern=self.southern)
        self.spans = rulebook.catalogue.season.stages.get(tree.crop, ())
        self.given: Facts = {**tree_facts(tree, rulebook), **place_facts(case.site, question.ground, question.start)}

    def year(self) -> TreeYear:
        """The year of the tree."""
        judged = self.case.judge("season.tree", {**self.given, **self.bloom_facts()})
        shift = judged.concluded.get("bloom_shift_days")
        self.blooming.shifted(float(shift) if isinstance(shift, int | float) else 0.0)
        marks = self.marks(judged)
        feeding = fed(self.tree, judged.concluded, self.given, percent=self.case.question.fertiliser_percent)
        water = list(self.drawn(judged, marks))
        facts = {**self.given, **self.bloom_facts(), **self.planned(judged), **nitrogen_facts(feeding), **_peak(water)}
        tasks = list(self.tasks(facts, marks))
        return TreeYear(
            tree=self.tree,
            bloom=self.bloom(),
            bloom_basis=self.blooming.told.basis,
            judgement=judged,
            stages=tuple(self.stages(facts, marks)),
            tasks=tuple(sorted((one for one in tasks if one.mark is not None), key=_by_day)),
            undated=tuple(one for one in tasks if one.mark is None),
            water=tuple(self.watered(water, facts, judged)),
            not_judged=unknown_of_year(facts, self.case.rulebook),
            fed=feeding,
        )

    def bloom(self) -> Bloom | None:
        """The bloom that the planned months touch: the one that was seen while it counts, else the next."""
        told = self.blooming.told
        if told.basis in ("observed", "stage"):
            return told.seen
        blooms = (self.blooming.in_season(year) for year in (self.season, self.season + 1))
        ahead = [bloom for bloom in blooms if bloom is not None and bloom.day >= self.case.question.start]
        return ahead[0] if ahead else None

    def bloom_facts(self) -> Facts:
        """Full bloom as facts."""
        return bloom_facts(self.blooming.told.basis, self.bloom(), self.given, southern=self.southern)

    def planned(self, judged: Judgement) -> Facts:
        """What the rules on the tree pass on to those that come after."""
        concluded = judged.concluded
        passed = {fact: concluded[name] for name, fact in _PASSED_ON.items() if name in concluded}
        interval = concluded.get("water_interval_days")
        return passed if interval is None else {**passed, "water.interval_days": interval}

    def marks(self, judged: Judgement) -> dict[int, dict[str, Mark]]:
        """The marks of every season that the plan touches."""
        harvest = harvest_of(self.tree, self.case.rulebook.catalogue.crops[self.tree.crop], self.case.rulebook)
        marks = SeasonMarks(self.blooming, harvest, facts=self.given, concluded=judged.concluded)
        return marks.around(self.case.question.start, self.spans)

    def within(self, occurrences: Mapping[int, Mark | None]) -> tuple[int, Mark] | None:
        """The first occurrence that the planned months touch, and its season."""
        question = self.case.question
        first = first_within(occurrences.values(), question.start, question.end)
        if first is None:
            return None
        return next((year, first) for year, mark in occurrences.items() if mark is first)

    def stages(self, facts: Facts, marks: Mapping[int, Mapping[str, Mark]]) -> Iterator[DatedStage]:
        """The stages of the planned months in the order of their days, each judged for frost where that is known."""
        found = []
        for name in STAGES:
            dated = self.within({year: known.get(name) for year, known in marks.items()})
            if dated is not None:
                found.append((name, *dated))
        for name, season, mark in sorted(found, key=lambda one: (one[2].first, one[2].last)):
            yield self.stage(name, mark, facts, season=season)

    def stage(self, name: str, mark: Mark, facts: Facts, *, season: int) -> DatedStage:
        """One stage, judged for frost where temperatures are published for it."""
        kill = self.tenderest(name)
        if kill is None:
            return DatedStage(name, mark, season)
        told: Facts = {**facts, **stage_facts(name, mark, self.given, southern=self.southern)}
        told = {**told, **known({"stage.kill_10_f": kill.kill_10_percent_f, "stage.kill_90_f": kill.kill_90_percent_f})}
        judged = self.case.judge("season.stage", told)
        return DatedStage(name, mark, season, kill.kill_10_percent_f, kill.kill_90_percent_f, judged)

    def tenderest(self, stage: str) -> BudStage | None:
        """The bud stage within a stage that stands the least frost."""
        kill = self.case.models.bud_kill.get(self.tree.crop)
        names = next((span.bud_stages for span in self.spans if span.stage == stage), ())
        found = [] if kill is None else [one for name in names if (one := kill.at(name)) is not None]
        return max(found, key=lambda one: one.kill_10_percent_f, default=None)

    def tasks(self, facts: Facts, marks: Mapping[int, Mapping[str, Mark]]) -> Iterator[DatedTask]:
        """The tasks that some rule calls for; one whose days lie outside the planned months is left out."""
        for task in self.case.rulebook.catalogue.season.tasks.values():
            judged = self.case.judge("season.task", {**facts, "task": task.id})
            if "task_standing" in judged.concluded:
                dated = self.dated(task, judged, marks)
                if dated is not None:
                    yield dated

    def dated(
        self, task: SeasonTask, judged: Judgement, marks: Mapping[int, Mapping[str, Mark]]
    ) -> DatedTask | None:
        """A task with its days; without them where a mark is missing, None where they lie outside the plan."""
        opens, closes = _edges(judged.concluded)
        almanac = Almanac(marks, self.southern)
        found = {year: task_mark(opens, closes, almanac, year=year) for year in marks}
        if not any(found.values()):
            return DatedTask(task, judged, None, None)
        within = self.within(found)
        return None if within is None else DatedTask(task, judged, within[1], within[0])

    def drawn(self, judged: Judgement, marks: Mapping[int, Mapping[str, Mark]]) -> Iterator[Drawn]:
        """What the tree draws, month by month."""
        watering = Watering(self.tree, judged.concluded, marks=marks, southern=self.southern)
        return watering.months(self.case.question.start, self.case.et0_in)

    def watered(self, drawn: list[Drawn], facts: Facts, judged: Judgement) -> Iterator[WaterMonth]:
        """Each month in which the tree draws water, judged."""
        most = max((one.gallons for one in drawn), default=0.0)
        interval = judged.concluded.get("water_interval_days")
        for one in drawn:
            each = one.gallons * interval if isinstance(interval, int | float) else None
            told: dict[str, Value | None] = {
                "water.month": one.month,
                "water.gallons_a_day": one.gallons,
                "water.gallons_a_week": one.gallons * _WEEK_DAYS,
                "water.gallons_each_time": each,
                "water.share_of_peak": one.gallons / most if most and one.basis != "young_tree" else None,
                "water.basis": one.basis,
            }
            judgement = self.case.judge("season.water", {**facts, **known(told)})
            yield WaterMonth(one.year, one.month, one.gallons, each, one.basis, judgement)


def _edges(concluded: Mapping[str, Value]) -> tuple[Edge, Edge]:
    """Where a task opens and closes; one that names only where it opens closes with the same mark."""
    opens, closes = _edge(concluded, "opens"), _edge(concluded, "closes")
    return opens, closes if closes.mark or closes.day is not None else Edge(opens.mark, closes.after_days, opens.day)


def _edge(concluded: Mapping[str, Value], end: str) -> Edge:
    mark, after, day = (concluded.get(f"{end}_{name}") for name in ("with", "after_days", "day"))
    return Edge(
        mark=mark if isinstance(mark, str) else None,
        after_days=float(after) if isinstance(after, int | float) else 0.0,
        day=round(day) if isinstance(day, int | float) and mark is None else None,
    )


def _peak(drawn: list[Drawn]) -> Facts:
    if not drawn:
        return {}
    most = max(drawn, key=lambda one: one.gallons)
    return {"water.peak_gal": most.gallons, "water.basis": most.basis}


def _by_day(one: DatedTask) -> tuple[date, date]:
    assert one.mark is not None
    return one.mark.first, one.mark.last
