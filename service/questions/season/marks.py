"""The marks of every season that a plan touches: stages, frosts, the rains and leaf fall, each with its days."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from service.compute.harvest import Window
from service.compute.phenology import Mark, date_in_season, season_of, stage_marks
from service.domain.season import StageSpan
from service.questions.season.blooming import Blooming
from service.questions.season.question import Facts
from service.reasoning.vocabulary import Value

_DAYS = {
    "last_spring_frost": "site.last_spring_frost_day",
    "first_autumn_frost": "site.first_autumn_frost_day",
    "rains_begin": "site.rains_begin_day",
}


class SeasonMarks:
    """Dates the marks of one tree from what is told and what season.tree concluded."""

    def __init__(self, blooming: Blooming, harvest: Window | None, *, facts: Facts,
                 concluded: Mapping[str, Value]) -> None:  # fmt: skip
        self.blooming, self.harvest, self.facts, self.concluded = blooming, harvest, facts, concluded
        self.southern = blooming.southern

    def around(self, start: date, spans: Sequence[StageSpan]) -> dict[int, dict[str, Mark]]:
        """The marks of the season before, of that in which the plan begins, and of the two after."""
        season = season_of(start, southern=self.southern)
        return {year: self.of(year, spans) for year in range(season - 1, season + 3)}

    def of(self, year: int, spans: Sequence[StageSpan]) -> dict[str, Mark]:
        """The marks of one season."""
        known = {name: self.single(fact, year) for name, fact in _DAYS.items()}
        known |= {"leaf_fall": self.leaf_fall(year), "before": self.leaf_fall(year - 1), "harvest": self.picked(year)}
        dated = {name: mark for name, mark in known.items() if mark is not None}
        return stage_marks(spans, self.blooming.in_season(year), dated)

    def single(self, fact: str, year: int) -> Mark | None:
        """A day of the place, such as that of the last frost."""
        day = self.facts.get(fact)
        return self.days(day, day, year)

    def leaf_fall(self, year: int) -> Mark | None:
        """Leaf fall, as the rules date it."""
        return self.days(self.concluded.get("leaf_fall_from_day"), self.concluded.get("leaf_fall_to_day"), year)

    def picked(self, year: int) -> Mark | None:
        """Harvest where the days of the cultivar are known; else the crop's days after bloom are taken."""
        return None if self.harvest is None else self.days(self.harvest.from_day, self.harvest.to_day, year)

    def days(self, first: Value | None, last: Value | None, year: int) -> Mark | None:
        """Numbered days as a mark of a season; days that run over its end close in the next."""
        if not isinstance(first, int | float) or not isinstance(last, int | float):
            return None
        closing = year + (last < first)
        opens = date_in_season(round(first), year, southern=self.southern)
        return Mark(opens, date_in_season(round(last), closing, southern=self.southern), "calendar")
