"""Full bloom in each season that a plan touches, from the surest thing that was told of it.

The bloom of this tree comes first, then another stage that was seen on it, then bloom at a neighbouring place, then
the usual time of the region. What was seen holds for its own season; for others it is a guide with the spread by which
years differ.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Literal

from service.compute.bioclimate import Away, Shifts, spring_shift_days
from service.compute.phenology import Bloom, bloom_from_stage, date_in_season, season_of
from service.domain.errors import NotUnderstood
from service.domain.month_day import MonthDay, day_of_season
from service.domain.season_tree import SeasonTree
from service.questions.season.question import SeasonQuestion
from service.reasoning.rulebook import Rulebook

_HALF_YEAR = 183
BloomBasis = Literal["observed", "stage", "neighbour", "last_year", "region", "none"]


@dataclass(frozen=True, slots=True)
class Told:
    """What is known of bloom: the day of a season, what it rests on, and the season in which it was seen."""

    basis: BloomBasis
    day: int | None = None
    spread_days: float = 0.0
    seen: Bloom | None = None
    seen_in: int | None = None


class Blooming:
    """Works out full bloom of one tree in any season."""

    def __init__(self, tree: SeasonTree, question: SeasonQuestion, *, rulebook: Rulebook, southern: bool) -> None:
        self.tree, self.question, self.rulebook, self.southern = tree, question, rulebook, southern
        self.year_days = rulebook.limits["season.shift.year_days"].value
        self.told = self._told()

    def shifted(self, days: float) -> None:
        """Move what the region says by days that the rules conclude for the place."""
        if self.told.basis == "region" and self.told.day is not None:
            self.told = replace(self.told, day=(self.told.day + round(days) - 1) % 365 + 1)

    def in_season(self, year: int) -> Bloom | None:
        """Full bloom in the season of a year."""
        told = self.told
        if told.seen is not None and told.seen_in == year:
            return told.seen
        if told.day is None:
            return None
        spread = told.spread_days if told.basis == "region" else max(told.spread_days, self.year_days)
        return Bloom(date_in_season(told.day, year, southern=self.southern), "estimated", spread)

    def _told(self) -> Told:
        seen = self.tree.seen
        if seen.full_bloom is not None:
            return self._seen(Bloom(seen.full_bloom, "observed"), "observed")
        if seen.stage is not None:
            return self._from_stage()
        if seen.neighbour is not None:
            return self._from_neighbour()
        return self._from_region()

    def _seen(self, bloom: Bloom, basis: BloomBasis) -> Told:
        """What was seen; once its season draws to an end, it is a guide to the next only."""
        season = season_of(bloom.day, southern=self.southern)
        current = (self.question.start - bloom.day).days < _HALF_YEAR
        spread = bloom.spread_days if current else max(bloom.spread_days, self.year_days)
        day = day_of_season(MonthDay(bloom.day.month, bloom.day.day), southern=self.southern)
        return Told(basis if current else "last_year", day, spread, bloom, season)

    def _from_stage(self) -> Told:
        seen = self.tree.seen.stage
        assert seen is not None
        spans = self.rulebook.catalogue.season.stages.get(self.tree.crop, ())
        span = next((one for one in spans if one.stage == seen.stage and one.from_days is not None), None)
        if span is None:
            known = ", ".join(one.stage for one in spans if one.from_days is not None)
            hint = f"; they are for: {known}" if known else "; tell the day of full bloom"
            raise NotUnderstood(("/seen/stage", f"no days from bloom are known for this stage of the crop{hint}"))
        day, spread = bloom_from_stage(seen.day, span)
        return self._seen(Bloom(day, "estimated", spread), "stage")

    def _from_neighbour(self) -> Told:
        seen = self.tree.seen.neighbour
        assert seen is not None
        away = Away(seen.north_deg, seen.east_deg, seen.higher_ft)
        day = seen.day + timedelta(days=round(spring_shift_days(away, self._shifts())))
        number = day_of_season(MonthDay(day.month, day.day), southern=self.southern)
        return Told("neighbour", number, self.year_days)

    def _from_region(self) -> Told:
        region = self.rulebook.catalogue.season.regions.get(self.question.ground.region or "")
        usual = None if region is None else region.full_bloom.get(self.tree.crop)
        if usual is None:
            return Told("none")
        first, last = usual
        return Told("region", (first + last) // 2, (last - first) / 2)

    def _shifts(self) -> Shifts:
        names = ("latitude_days", "longitude_days", "longitude_deg", "altitude_days", "altitude_ft")
        return Shifts(*(self.rulebook.limits[f"season.shift.{name}"].value for name in names))


def seen_in_future(tree: SeasonTree, start: date) -> list[tuple[str, str]]:
    """What was told as seen and lies after the day from which the plan runs."""
    seen = tree.seen
    days = (
        ("/seen/full_bloom", seen.full_bloom),
        ("/seen/day", None if seen.stage is None else seen.stage.day),
        ("/seen/neighbour/full_bloom", None if seen.neighbour is None else seen.neighbour.day),
    )
    return [(at, f"{day.isoformat()} comes after the first day of the plan, {start.isoformat()}")
            for at, day in days if day is not None and day > start]  # fmt: skip
