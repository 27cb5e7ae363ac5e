"""A season plan as one page: months from left to right, for each tree its stages and a lane for each kind of work.

It is written from the plan as plain data, as SVG for screen and printer. A bar with a broken edge is an estimate, and
the thin line below it shows how early or late it may come.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any
from xml.sax.saxutils import escape

from service.domain.units import Language, month_text
from service.present.season_words import BLOOM, CALENDAR_NAME, LEGEND, STAGES

_WIDTH, _LEFT, _RIGHT, _TOP = 1120.0, 132.0, 12.0, 62.0
_ROW, _BAR, _FONT, _LETTER = 15.0, 10.0, 9.0, 4.9  # in units of the drawing; a letter is about half its font wide
_COLOURS: Mapping[str, str] = {
    "planting": "#8d6e63", "bloom": "#f3a6c0", "frost": "#7fb8e6", "pruning": "#8bbf7a", "feeding": "#c9a227",
    "water": "#4f9bd1", "thinning": "#e59a4a", "pests": "#b07cc6", "protection": "#9aa5ab", "harvest": "#d9534f",
    "sanitation": "#a3a86b", "stages": "#cfd8c5",
}  # fmt: skip
_LANES = tuple(_COLOURS)
_MIDDLE, _END, _NAME = 'text-anchor="middle"', 'text-anchor="end"', 'font-size="12" font-weight="bold"'


@dataclass(frozen=True, slots=True)
class _Bar:
    """One bar with its label; a pale one is work to leave alone."""

    first: date
    last: date
    label: str
    colour: str
    title: str
    earliest: date
    latest: date
    estimated: bool
    pale: bool = False


def year_strip(told: Mapping[str, Any]) -> str:
    """The page of a plan."""
    return _Strip(told["answer"]).page()


class _Strip:
    def __init__(self, answer: Mapping[str, Any]) -> None:
        self.answer = answer
        self.language: Language = answer["language"]
        self.start, self.end = date.fromisoformat(answer["from"]), date.fromisoformat(answer["to"])
        self.parts: list[str] = []
        self.y = _TOP

    def page(self) -> str:
        for tree in self.answer["trees"]:
            self.tree(tree)
        body, height = "\n".join(self.parts), self.y + 26
        title = f"{CALENDAR_NAME[self.language]}, {self.answer['from']} – {self.answer['to']}"
        head = [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="297mm" height="210mm" viewBox="0 0 {_WIDTH:g} {height:g}" '
            f'preserveAspectRatio="xMidYMin meet" role="img" font-family="sans-serif" font-size="{_FONT:g}" '
            f'fill="#222" xml:lang="{self.language}">',
            f"<title>{escape(title)}</title>",
            f'<rect width="{_WIDTH:g}" height="{height:g}" fill="#fff"/>',
            _text(12, 24, title, style='font-size="16"'),
            *self.months(height - 24),
        ]
        legend = _text(12, height - 8, LEGEND[self.language])
        return "\n".join([*head, body, legend, "</svg>\n"])

    def months(self, bottom: float) -> Iterable[str]:
        """A line at the first of each month, and its name."""
        first = self.start.replace(day=1)
        while first <= self.end:
            following = (first + timedelta(days=31)).replace(day=1)
            left, right = self.x(max(first, self.start)), self.x(min(following, self.end + timedelta(days=1)))
            yield f'<line x1="{left:.1f}" y1="38" x2="{left:.1f}" y2="{bottom:.1f}" stroke="#ddd"/>'
            name = month_text(first.month, language=self.language)
            if right - left > len(name) * _LETTER:
                yield _text((left + right) / 2, 48, name, style=_MIDDLE)
            first = following

    def tree(self, tree: Mapping[str, Any]) -> None:
        """The name of a tree, its stages, and a lane for each kind of work."""
        bloom = tree["bloom"]["date"]
        about = [tree["named"], *([tree["crop_name"]] if tree["crop_name"] != tree["named"] else [])]
        if bloom is not None:
            about.append(BLOOM[self.language].format(day=bloom))
        self.parts.append(_text(12, self.y + 10, " · ".join(about), style=_NAME))
        self.y += _ROW + 2
        self.lane(STAGES[self.language], [self.bar(one, "stages", one["name"]) for one in tree["stages"]])
        names = {task["kind"]: task["kind_name"] for task in tree["tasks"]}
        for kind, name in sorted(names.items(), key=lambda one: _LANES.index(one[0])):
            self.lane(name, [self.bar(one, kind, one["what"]) for one in tree["tasks"] if one["kind"] == kind])
        self.y += 8

    def bar(self, one: Mapping[str, Any], kind: str, label: str) -> _Bar:
        days = {name: date.fromisoformat(one[name]) for name in ("from", "to", "earliest", "latest")}
        return _Bar(
            first=days["from"],
            last=days["to"],
            label=label,
            colour=_COLOURS[kind],
            title=f"{label}: {one['from']} – {one['to']}. {one.get('text', '')}".strip(),
            earliest=days["earliest"],
            latest=days["latest"],
            estimated=one["basis"] == "estimated",
            pale=one.get("standing") == "do_not",
        )

    def lane(self, name: str, bars: Sequence[_Bar]) -> None:
        """A kind of work; bars that would cover one another stand in rows below each other."""
        self.parts.append(_text(_LEFT - 8, self.y + _BAR - 1, name, style=_END))
        ends: list[float] = []
        for bar in bars:
            left, right = self.reach(bar)
            row = next((place for place, end in enumerate(ends) if end < left), len(ends))
            ends[row : row + 1] = [right]
            self.parts.append(self.drawn(bar, self.y + row * _ROW))
        self.y += _ROW * max(1, len(ends))

    def reach(self, bar: _Bar) -> tuple[float, float]:
        """What a bar covers together with its label, which stands inside where it fits, else beside it."""
        left, right = self.x(bar.first), self.x(bar.last + timedelta(days=1))
        words = len(bar.label) * _LETTER + 4
        if right - left >= words:
            return left, right
        return (left - words, right) if self.label_left(right, words) else (left, right + words)

    def label_left(self, right: float, words: float) -> bool:
        return right + words > _WIDTH - _RIGHT

    def drawn(self, bar: _Bar, y: float) -> str:
        left, right = self.x(bar.first), self.x(bar.last + timedelta(days=1))
        words, below = len(bar.label) * _LETTER + 4, y + _BAR + 1.5
        edge = 'stroke="#555" stroke-width="0.6"' + (' stroke-dasharray="2 1.5"' if bar.estimated else "")
        spread = "" if not bar.estimated else (
            f'<line x1="{self.x(bar.earliest):.1f}" y1="{below:.1f}" x2="{self.x(bar.latest):.1f}" y2="{below:.1f}" '
            'stroke="#999" stroke-width="0.8"/>'
        )  # fmt: skip
        box = (
            f'<rect x="{left:.1f}" y="{y:.1f}" width="{max(2.0, right - left):.1f}" height="{_BAR:g}" rx="2" '
            f'fill="{"#fff" if bar.pale else bar.colour}" {edge}/>'
        )
        place, style = (left if right - left >= words else right) + 3, ""
        if right - left < words and self.label_left(right, words):
            place, style = left - 3, _END
        label = _text(place, y + _BAR - 2, bar.label, style=style)
        return f"<g><title>{escape(bar.title)}</title>{spread}{box}{label}</g>"

    def x(self, day: date) -> float:
        """Where a day stands; one outside the planned months stands at their edge."""
        days = (self.end - self.start).days + 1
        gone = min(max((day - self.start).days, 0), days)
        return _LEFT + gone / days * (_WIDTH - _LEFT - _RIGHT)


def _text(x: float, y: float, words: str, *, style: str = "") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}"{style and " " + style}>{escape(words)}</text>'
