"""Draws shapes onto the pages of a PDF. The letters are those that every reader of PDF has, so no font goes along.

They cover English, Spanish and their neighbours in the west of Europe. What they lack is written in the nearest way:
without its accent, or with signs that mean the same.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from functools import lru_cache

from fpdf import FPDF
from fpdf.enums import RenderStyle

from service.domain.units import Language
from service.present.drawings.shapes import Box, Disc, Shape, Stroke, Words

FONT = "Helvetica"
LETTER = (612.0, 792.0)  # points
ENCODING = "cp1252"
_OTHERWISE = str.maketrans({
    "≥": ">=", "≤": "<=", "→": "->", "−": "-", "⅓": "1/3", "⅔": "2/3", "′": "'", "″": '"', "ł": "l", "Ł": "L", "đ": "d",
    "Đ": "D", "ı": "i", "\u00a0": " ", "\u202f": " ", "\t": " ", "\n": " ",
})  # fmt: skip


def printable(text: str) -> str:
    """A text in the letters that there are.

    >>> printable("Čačak ≥ 3 ft, piñón"), printable("Яблоко")
    ('Cacak >= 3 ft, piñón', '??????')
    """
    plain = text.translate(_OTHERWISE)
    return "".join(_letter(letter) for letter in plain if letter.isprintable())


@lru_cache(maxsize=1024)
def _letter(letter: str) -> str:
    for way in (letter, unicodedata.normalize("NFKD", letter)):
        written = way.encode(ENCODING, "ignore").decode(ENCODING)
        if written:
            return written
    return "" if unicodedata.combining(letter) else "?"


class Paper(FPDF):
    """Pages in points, drawn shape by shape."""

    def __init__(self, title: str, language: Language) -> None:
        super().__init__(unit="pt", format=LETTER)
        self.core_fonts_encoding = ENCODING
        self.set_title(title)
        self.set_lang(language)
        self.set_creator("Fruitwright")
        self.set_auto_page_break(False)
        self.set_margin(0)

    def width_of(self, text: str, size: float, *, bold: bool = False) -> float:
        """How wide a text is in print."""
        self.set_font(FONT, "B" if bold else "", size)
        return float(self.get_string_width(text))

    def draw(self, shapes: Iterable[Shape], *, x: float, y: float, scale: float = 1.0) -> None:
        """Draw shapes with their left top corner at x and y."""
        for shape in shapes:
            if isinstance(shape, Words):
                self._words(shape, x, y, scale)
            elif isinstance(shape, Stroke):
                self._stroke(shape, x, y, scale)
            else:
                self._area(shape, x, y, scale)
        self.set_dash_pattern()

    def _words(self, words: Words, x: float, y: float, scale: float) -> None:
        text = printable(words.text)
        if not text:
            return
        width = self.width_of(text, words.size * scale, bold=words.bold)
        before = {"start": 0.0, "middle": width / 2, "end": width}[words.anchor]
        at_x, at_y = x + words.x * scale, y + words.y * scale
        self.set_text_color(words.colour)
        if words.turned:
            with self.rotation(90, at_x, at_y):
                self.text(at_x - before, at_y, text)
        else:
            self.text(at_x - before, at_y, text)

    def _stroke(self, stroke: Stroke, x: float, y: float, scale: float) -> None:
        self._pen(stroke.colour, stroke.line_width * scale, stroke.dash, scale)
        self.polyline([(x + at_x * scale, y + at_y * scale) for at_x, at_y in stroke.points])

    def _area(self, area: Box | Disc, x: float, y: float, scale: float) -> None:
        style = _style(area)
        if style is None:
            return
        if area.fill is not None:
            self.set_fill_color(area.fill)
        if area.stroke is not None:
            self._pen(area.stroke, area.line_width * scale, area.dash, scale)
        at_x, at_y = x + area.x * scale, y + area.y * scale
        if isinstance(area, Box):
            self.rect(at_x, at_y, area.width * scale, area.height * scale, style=style)
        else:
            self.circle(at_x, at_y, area.radius * scale, style=style)

    def _pen(self, colour: str, width: float, dash: Sequence[float], scale: float) -> None:
        self.set_draw_color(colour)
        self.set_line_width(width)
        if dash:
            self.set_dash_pattern(dash=dash[0] * scale, gap=dash[-1] * scale)
        else:
            self.set_dash_pattern()


def _style(area: Box | Disc) -> RenderStyle | None:
    if area.fill is not None and area.stroke is not None:
        return RenderStyle.DF
    if area.fill is not None:
        return RenderStyle.F
    return None if area.stroke is None else RenderStyle.D
