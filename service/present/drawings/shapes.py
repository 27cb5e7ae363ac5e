"""A drawing as plain data: boxes, discs, strokes and words, which a page, a printer or a PDF can draw alike.

Lengths are points (1/72 in), x to the right and y downwards. Colours are "#rrggbb", or None for nothing. A drawing is
at most as wide as the text on a letter or A4 page.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from service.domain.units import Language

PAGE_WIDTH = 510.0
INK, GREY, PALE, WHITE = "#1f2a24", "#5a625d", "#c9cfcb", "#ffffff"
Anchor = Literal["start", "middle", "end"]
Dash = tuple[float, ...]
_LETTER, _BOLD = 0.56, 0.6  # of the font size, a little more than letters of a sans face take on average


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its left top corner; `says` is read out, or shown on pointing at it."""

    x: float
    y: float
    width: float
    height: float
    fill: str | None = None
    stroke: str | None = None
    line_width: float = 0.75
    dash: Dash = ()
    says: str = ""


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle around its centre."""

    x: float
    y: float
    radius: float
    fill: str | None = None
    stroke: str | None = None
    line_width: float = 0.75
    dash: Dash = ()
    says: str = ""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through two or more points."""

    points: tuple[tuple[float, float], ...]
    colour: str = INK
    line_width: float = 0.75
    dash: Dash = ()


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text; y is its base line. Turned words run upwards."""

    x: float
    y: float
    text: str
    size: float = 8.0
    anchor: Anchor = "start"
    bold: bool = False
    colour: str = INK
    turned: bool = False

    @property
    def length(self) -> float:
        """About how long they are."""
        return words_length(self.text, self.size, bold=self.bold)


Shape = Box | Disc | Stroke | Words


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes in the order in which they are drawn, with what a person who cannot see them is told."""

    name: str
    width: float
    height: float
    title: str
    description: str
    language: Language
    shapes: tuple[Shape, ...]


def words_length(text: str, size: float, *, bold: bool = False) -> float:
    """About how long words are in points, rather too long than too short.

    >>> round(words_length("12 ft", 10), 1)
    28.0
    """
    return len(text) * size * (_BOLD if bold else _LETTER)
