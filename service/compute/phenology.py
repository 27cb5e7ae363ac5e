"""The dates of a season: from full bloom to every stage, and from stages and calendar days to the days of a task.

A season is named by the year in which it begins: on 1 January in the north, on 1 July in the south. A mark is a stage
or a single day of a season with what its dates rest on; a mark that nobody can date is missing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from service.domain.month_day import season_day
from service.domain.season import StageSpan

MarkBasis = Literal["observed", "estimated", "calendar"]
_SUREST_LAST: tuple[MarkBasis, ...] = ("estimated", "calendar", "observed")
_SOUTHERN_START = 7


@dataclass(frozen=True, slots=True)
class Mark:
    """The first and the last day of a stage, and the days by which they may come earlier or later."""

    first: date
    last: date
    basis: MarkBasis
    spread_days: float = 0.0


@dataclass(frozen=True, slots=True)
class Bloom:
    """Full bloom of one season."""

    day: date
    basis: MarkBasis
    spread_days: float = 0.0

    def mark(self, from_days: float, to_days: float) -> Mark:
        """The days so long after full bloom.

        Shuck split, 10 to 25 days after bloom on 10 March (rules/stages.yaml):

        >>> mark = Bloom(date(2027, 3, 10), "observed").mark(10, 25)
        >>> mark.first.isoformat(), mark.last.isoformat()
        ('2027-03-20', '2027-04-04')
        """
        first, last = (self.day + timedelta(days=round(days)) for days in (from_days, to_days))
        return Mark(first, last, self.basis, self.spread_days)


@dataclass(frozen=True, slots=True)
class Edge:
    """Where a task opens or closes: so many days after a mark, or on a day of the season."""

    mark: str | None = None
    after_days: float = 0.0
    day: int | None = None


@dataclass(frozen=True, slots=True)
class Almanac:
    """The marks of several seasons, by the year in which each begins."""

    marks: Mapping[int, Mapping[str, Mark]]
    southern: bool = False

    def edge(self, edge: Edge, year: int) -> Mark | None:
        """The mark or the day that an edge names in a season, before its shift."""
        if edge.day is not None:
            day = date_in_season(edge.day, year, southern=self.southern)
            return Mark(day, day, "calendar")
        return self.marks.get(year, {}).get(edge.mark or "")


def date_in_season(day: int, year: int, *, southern: bool = False) -> date:
    """The date of a numbered day in the season of a year.

    >>> date_in_season(288, 2026).isoformat(), date_in_season(288, 2026, southern=True).isoformat()
    ('2026-10-15', '2027-04-14')
    """
    told = season_day(day, southern=southern)
    return date(year + (southern and told.month < _SOUTHERN_START), told.month, told.day)


def season_of(today: date, *, southern: bool = False) -> int:
    """The season that a date falls into.

    >>> season_of(date(2027, 2, 1)), season_of(date(2027, 2, 1), southern=True)
    (2027, 2026)
    """
    return today.year - (southern and today.month < _SOUTHERN_START)


def bloom_from_stage(seen: date, span: StageSpan) -> tuple[date, float]:
    """Full bloom and its spread from the day on which another stage was seen, taken as the middle of that stage.

    Pit hardening of apricots runs from 40 to 55 days after bloom (rules/stages.yaml):

    >>> day, spread = bloom_from_stage(date(2027, 5, 1), StageSpan("pit_hardening", 40, 55))
    >>> day.isoformat(), spread
    ('2027-03-14', 7.5)
    """
    if span.from_days is None or span.to_days is None:
        raise ValueError(f"{span.stage} has no days of its own")
    middle, half = (span.from_days + span.to_days) / 2, (span.to_days - span.from_days) / 2
    return seen - timedelta(days=round(middle)), half


def stage_marks(spans: Iterable[StageSpan], bloom: Bloom | None, known: Mapping[str, Mark]) -> dict[str, Mark]:
    """Every stage of a season that can be dated; `known` are marks with dates of their own, which stand.

    A stage between two others takes the days from the end of the one to the beginning of the other. `known` may hold
    `before`, the leaf fall of the season before, from which dormancy begins.
    """
    marks = dict(known)
    if bloom is not None:
        marks["full_bloom"] = bloom.mark(0, 0)
        for span in spans:
            if span.from_days is not None and span.to_days is not None:
                marks.setdefault(span.stage, bloom.mark(span.from_days, span.to_days))
    for span in spans:
        found = _between(span, marks)
        if found is not None:
            marks.setdefault(span.stage, found)
    marks.pop("before", None)
    return marks


def _between(span: StageSpan, marks: Mapping[str, Mark]) -> Mark | None:
    if span.between is None:
        return None
    start = "before" if span.stage == "dormant" else span.between[0]
    opens, closes = marks.get(start), marks.get(span.between[1])
    if opens is None or closes is None:
        return None
    first, last = opens.last + timedelta(days=1), closes.first - timedelta(days=1)
    return None if last < first else Mark(first, last, least_sure((opens, closes)), max(_spreads((opens, closes))))


def task_mark(opens: Edge, closes: Edge, almanac: Almanac, *, year: int) -> Mark | None:
    """The days of a task in a season; what would close before it opens closes in the next season."""
    start = almanac.edge(opens, year)
    if start is None:
        return None
    for closing_year in (year, year + 1):
        end = almanac.edge(closes, closing_year)
        if end is not None and _shifted(end.last, closes) >= _shifted(start.first, opens):
            both = (start, end)
            first, last = _shifted(start.first, opens), _shifted(end.last, closes)
            return Mark(first, last, least_sure(both), max(_spreads(both)))
    return None


def _shifted(day: date, edge: Edge) -> date:
    return day if edge.day is not None else day + timedelta(days=round(edge.after_days))


def least_sure(marks: Iterable[Mark]) -> MarkBasis:
    """What the dates of several marks rest on together: the weakest."""
    return min((mark.basis for mark in marks), key=_SUREST_LAST.index)


def _spreads(marks: Iterable[Mark]) -> list[float]:
    return [mark.spread_days for mark in marks]


def first_within(occurrences: Iterable[Mark | None], start: date, end: date) -> Mark | None:
    """The first of several occurrences that is not over on `start` and begins before `end`."""
    within = [mark for mark in occurrences if mark is not None and mark.last >= start and mark.first < end]
    return min(within, key=lambda mark: mark.first, default=None)
