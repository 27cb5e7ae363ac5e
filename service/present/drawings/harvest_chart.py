"""The harvest chart: a bar for each tree of a list from its first to its last picking, and below it the trees by week.

Months run from left to right through the season, which begins in January, in the southern hemisphere in July; a picking
that runs over its turn stands at both ends. A broken edge marks an estimate. Below, each week is a column as high as it
has trees in picking; the fullest is the dark one, and months without harvest between others are named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.domain.month_day import day_of_season, read_month_day
from service.domain.units import Language, day_text, month_text
from service.present.drawings.drawing_words import HARVEST, MONTHS
from service.present.drawings.shapes import GREY, INK, PAGE_WIDTH, PALE, WHITE, Box, Drawing, Shape, Stroke, Words
from service.present.drawings.texts import cut, wrapped

BAR, COLUMN, FULLEST = "#b9d8b2", "#5b8db8", "#1f4e79"
_LEFT, _RIGHT, _TOP = 128.0, 8.0, 16.0
_ROW, _HIGH, _SIZE = 13.0, 9.0, 7.5
_COLUMNS = 46.0
_MOST_ROWS = 36
_YEAR, _WEEK = 365, 7
_MONTH_STARTS = (1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335)


def harvest_chart(harvest: Mapping[str, Any], *, language: Language = "en") -> Drawing:
    """The drawing of a harvest as it is told in an answer."""
    return _Chart(harvest, language).drawing()


@dataclass(frozen=True, slots=True)
class _Picked:
    """One row: a cultivar of a line with the days of the season on which it is picked."""

    name: str
    trees: int
    from_day: int
    to_day: int
    estimated: bool

    @property
    def spans(self) -> tuple[tuple[int, int], ...]:
        if self.from_day <= self.to_day:
            return ((self.from_day, self.to_day),)
        return (self.from_day, _YEAR), (1, self.to_day)


class _Chart:
    def __init__(self, harvest: Mapping[str, Any], language: Language) -> None:
        self.harvest, self.language = harvest, language
        self.southern = harvest["first_month"] != 1
        rows = sorted((self.picked(one) for one in harvest["times"]), key=lambda row: (row.from_day, row.to_day))
        self.rows, self.more = rows[:_MOST_ROWS], len(rows) - _MOST_ROWS
        self.described = rows

    def picked(self, one: Mapping[str, Any]) -> _Picked:
        name = f"{one['line']}  {one['name']}" + (f" ×{one['trees']}" if one["trees"] > 1 else "")
        return _Picked(name, one["trees"], self.day(one["from"]), self.day(one["to"]), one["basis"] != "cultivar_dates")

    def day(self, text: str) -> int:
        return day_of_season(read_month_day(text), southern=self.southern)

    def drawing(self) -> Drawing:
        """All of it."""
        bars_end = _TOP + _ROW * (len(self.rows) + (self.more > 0)) + 4
        columns_end = bars_end + 12 + _COLUMNS
        notes = list(self.notes(columns_end + 14))
        shapes = (
            *self.months(columns_end), *self.gaps(bars_end), *self.bars(), *self.columns(bars_end, columns_end), *notes
        )  # fmt: skip
        return Drawing(
            name="harvest-chart",
            width=PAGE_WIDTH,
            height=round(max([columns_end, *(one.y for one in notes)]) + 5, 1),
            title=self.said("title"),
            description=self.description(),
            language=self.language,
            shapes=shapes,
        )

    def said(self, key: str, **values: object) -> str:
        return HARVEST[key][self.language].format(**values)

    def date(self, day: int) -> str:
        return day_text(day, language=self.language, southern=self.southern)

    def x(self, day: float) -> float:
        """Where a day begins."""
        return _LEFT + (day - 1) / _YEAR * (PAGE_WIDTH - _LEFT - _RIGHT)

    def starts(self) -> list[tuple[int, int]]:
        """Each month with the day of the season on which it begins, in the order of the season."""
        first = self.harvest["first_month"]
        order = [(first - 1 + step) % 12 + 1 for step in range(12)]
        before = _MONTH_STARTS[first - 1]
        return [(month, (_MONTH_STARTS[month - 1] - before) % _YEAR + 1) for month in order]

    def months(self, bottom: float) -> Iterator[Shape]:
        """A line at the first of each month, and its name."""
        starts = self.starts()
        for (month, start), end in zip(starts, [*(day for _, day in starts[1:]), _YEAR + 1], strict=True):
            yield Stroke(((self.x(start), 4), (self.x(start), bottom)), PALE, 0.4)
            yield Words((self.x(start) + self.x(end)) / 2, 11, MONTHS[self.language][month - 1], _SIZE, "middle")
        yield Stroke(((self.x(_YEAR + 1), 4), (self.x(_YEAR + 1), bottom)), PALE, 0.4)
        yield Stroke(((8, _TOP - 1), (PAGE_WIDTH - _RIGHT, _TOP - 1)), GREY, 0.5)

    def bars(self) -> Iterator[Shape]:
        """A bar for each row, its name on the left."""
        for place, row in enumerate(self.rows):
            top = _TOP + 2 + _ROW * place
            yield Words(8, top + 7.2, cut(row.name, _LEFT - 14, size=_SIZE), _SIZE)
            for first, last in row.spans:
                yield Box(
                    x=self.x(first),
                    y=top,
                    width=max(1.5, self.x(last + 1) - self.x(first)),
                    height=_HIGH,
                    fill=BAR,
                    stroke=INK,
                    dash=(2.0, 1.5) if row.estimated else (),
                    says=self.told(row),
                )
        if self.more > 0:
            yield Words(8, _TOP + _ROW * len(self.rows) + 9.2, self.said("more", count=self.more), _SIZE, colour=GREY)

    def told(self, row: _Picked) -> str:
        first, last = self.date(row.from_day), self.date(row.to_day)
        return self.said("row", name=row.name.replace("  ", " "), first=first, last=last)

    def gaps(self, bottom: float) -> Iterator[Words]:
        """The word for nothing below each month without harvest between others."""
        ends = [*(day for _, day in self.starts()[1:]), _YEAR + 1]
        for (month, start), end in zip(self.starts(), ends, strict=True):
            if month in self.harvest["gap_months"]:
                middle = (self.x(start) + self.x(end)) / 2
                yield Words(middle, bottom + 10 + _COLUMNS, self.said("gap"), 7, "middle", colour=GREY)

    def columns(self, top: float, bottom: float) -> Iterator[Shape]:
        """A column for each week with harvest, the fullest with its number."""
        most = max((week["trees"] for week in self.harvest["weeks"]), default=1)
        busiest = self.harvest["busiest_week"]
        yield Words(8, bottom - _COLUMNS / 2 + 2, cut(self.said("per_week"), _LEFT - 14, size=_SIZE), _SIZE)
        for week in self.harvest["weeks"]:
            first, high = self.day(week["from"]), week["trees"] / most * (_COLUMNS - 10)
            fullest = busiest is not None and week["from"] == busiest["from"]
            left, right = self.x(first), self.x(min(first + _WEEK, _YEAR + 1))
            colour = FULLEST if fullest else COLUMN
            yield Box(left, bottom - high, right - left, high, fill=colour, stroke=WHITE, line_width=0.4)
            if fullest:
                yield Words((left + right) / 2, bottom - high - 2.5, str(week["trees"]), 7, "middle", bold=True)
        yield Stroke(((_LEFT, bottom), (PAGE_WIDTH - _RIGHT, bottom)), INK, 0.8)

    def notes(self, y: float) -> Iterator[Words]:
        """What the drawing does not show by itself."""
        for sentence in self.sentences():
            for line in wrapped(sentence, PAGE_WIDTH - 16, size=_SIZE):
                yield Words(8, y, line, _SIZE, colour=GREY)
                y += 10

    def sentences(self) -> Iterator[str]:
        harvest = self.harvest
        if harvest["busiest_week"] is not None:
            yield self.busiest(harvest["busiest_week"])
        if harvest["gap_months"]:
            months = (month_text(month, language=self.language) for month in harvest["gap_months"])
            yield self.said("gaps", months=", ".join(months))
        if any(row.estimated for row in self.rows):
            yield self.said("estimate")
        unknown = harvest["unknown_trees"]
        if unknown:
            yield self.said("unknown_one" if unknown == 1 else "unknown", count=unknown)

    def busiest(self, week: Mapping[str, Any]) -> str:
        share = round(self.harvest["busiest_share"] * 100)
        key = "busiest_one" if week["trees"] == 1 else "busiest"
        return self.said(key, day=self.date(self.day(week["from"])), trees=week["trees"], share=share)

    def description(self) -> str:
        """Each row in words, and what stands below."""
        return " ".join(f"{one.rstrip('.')}." for one in (*map(self.told, self.described), *self.sentences()))
