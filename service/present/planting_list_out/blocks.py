"""Pieces of a printed page: headings, paragraphs and rows of a table, each as shapes with the height that they take."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from service.domain.checked_list import Verdict
from service.present.drawings.shapes import GREY, INK, PAGE_WIDTH, PALE, Box, Disc, Shape, Stroke, Words
from service.present.paper import printable

Measure = Callable[[str, float, bool], float]
COLOURS: dict[Verdict, str] = {
    "fits": "#1e6b2e", "caution": "#8a5a00", "does_not_fit": "#a61b1b", "not_recognised": "#5a2d82",
}  # fmt: skip
_LEADING = 1.22
_BULLET = 8.0
_NUMBER, _WRITTEN, _VERDICT = 26.0, 168.0, 68.0
TABLE_SIZE, _PAD = 7.5, 2.6


@dataclass(frozen=True, slots=True)
class Block:
    """Shapes from nought downwards, the room they take, and whether the next block must stand on the same page."""

    height: float
    shapes: tuple[Shape, ...]
    with_next: bool = False
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class Setter:
    """Sets text to the widths that it has in print."""

    measure: Measure

    def wrapped(self, text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
        """A text on lines that fit; a word that is too long by itself is broken."""
        lines: list[list[str]] = []
        space, left = self.measure(" ", size, bold), 0.0
        for word in self._words(printable(text), width, size, bold):
            wide = self.measure(word, size, bold)
            if lines and wide + space <= left:
                lines[-1].append(word)
                left -= wide + space
            else:
                lines.append([word])
                left = width - wide
        return [" ".join(line) for line in lines]

    def _words(self, text: str, width: float, size: float, bold: bool) -> Iterator[str]:
        for word in text.split():
            rest = word
            while self.measure(rest, size, bold) > width and len(rest) > 1:
                most = max(1, int(len(rest) * width / self.measure(rest, size, bold)))
                yield rest[:most]
                rest = rest[most:]
            yield rest

    def title(self, text: str, beside: str) -> Block:
        """The title of the sheet, with small words at its right."""
        size = 17.0
        words = (
            Words(0, size, text, size, bold=True),
            Words(PAGE_WIDTH, size, beside, 7.5, "end", colour=GREY),
            Stroke(((0, size + 7), (PAGE_WIDTH, size + 7)), INK, 0.8),
        )
        return Block(size + 12, words, with_next=True)

    def headline(self, text: str, verdict: str) -> Block:
        """What the list comes to."""
        of_list = {"passes": COLOURS["fits"], "passes_with_care": COLOURS["caution"]}
        colour = of_list.get(verdict, COLOURS["does_not_fit"])
        return Block(18, (Words(0, 13, text, 12.5, bold=True, colour=colour),), with_next=True)

    def heading(self, text: str) -> Block:
        """A heading."""
        return Block(20, (Words(0, 15, text, 10.5, bold=True),), with_next=True)

    def paragraph(self, text: str, *, size: float = 8.0, colour: str = INK, mark: str = "") -> Block:
        """A paragraph, behind a mark where there is one."""
        left = _BULLET if mark else 0.0
        lines = self.wrapped(text, PAGE_WIDTH - left, size)
        shapes: list[Shape] = [Words(1, size, mark, size, colour=colour)] if mark else []
        shapes += (Words(left, size + n * size * _LEADING, line, size, colour=colour) for n, line in enumerate(lines))
        return Block(len(lines) * size * _LEADING + 1.8, tuple(shapes))

    def head_row(self, names: Sequence[str]) -> Block:
        """The heads of the table's columns."""
        places = (0.0, _NUMBER, _NUMBER + _WRITTEN, _NUMBER + _WRITTEN + _VERDICT)
        words = (Words(x, 8, name, 7, bold=True, colour=GREY) for x, name in zip(places, names, strict=True))
        return Block(12, (*words, Stroke(((0, 11.5), (PAGE_WIDTH, 11.5)), INK, 0.6)), with_next=True)

    def short_row(self, cells: Sequence[str], verdict: Verdict) -> Block:
        """One line of the list in one row of type; what is longer ends in dots."""
        number, what, word, *know = cells
        size, base = TABLE_SIZE, _PAD + TABLE_SIZE - 1
        at, know_at = _NUMBER + _WRITTEN, _NUMBER + _WRITTEN + _VERDICT
        sign = _sign(verdict, at + 3, base - size * 0.36)
        words = [
            Words(0, base, number, size, bold=True),
            Words(_NUMBER, base, self.cut(what, _WRITTEN - 8, size), size),
            Words(at + 9, base, word, size, bold=True, colour=COLOURS[verdict]),
        ]
        words += (Words(know_at, base, self.cut(one, PAGE_WIDTH - know_at, size), size) for one in know)
        height = size * _LEADING + 2 * (_PAD - 1)
        return Block(height, (*words, sign, Stroke(((0, height), (PAGE_WIDTH, height)), PALE, 0.4)))

    def cut(self, text: str, width: float, size: float, *, bold: bool = False) -> str:
        """A text on one line, ended by dots where it is longer."""
        lines = self.wrapped(text, width - 11, size, bold=bold)
        return lines[0] + " …" if len(lines) > 1 else "".join(lines)

    def row(self, cells: Sequence[str], sentences: Sequence[str], verdict: Verdict) -> Block:
        """One line of the list: its number, what was written and read, the verdict, and what to know."""
        number, written, read, word = cells
        size, step = TABLE_SIZE, TABLE_SIZE * _LEADING
        left = [(line, INK) for line in self.wrapped(written, _WRITTEN - 8, size)[:3]]
        left += [(line, GREY) for line in self.wrapped(read, _WRITTEN - 8, size)[:3]]
        know_at = _NUMBER + _WRITTEN + _VERDICT
        know = [(n == 0, line) for one in sentences
                for n, line in enumerate(self.wrapped(one, PAGE_WIDTH - know_at - 7, size))]  # fmt: skip
        words = self.wrapped(word, _VERDICT - 12, size, bold=True)
        base = _PAD + size
        height = max(len(left), len(know), len(words)) * step + 2 * _PAD
        shapes: list[Shape] = [Words(0, base, number, size, bold=True)]
        shapes += (Words(_NUMBER, base + n * step, line, size, colour=colour) for n, (line, colour) in enumerate(left))
        at = _NUMBER + _WRITTEN
        shapes.append(_sign(verdict, at + 3, base - size * 0.36))
        shapes += (Words(at + 9, base + n * step, line, size, bold=True, colour=COLOURS[verdict])
                   for n, line in enumerate(words))  # fmt: skip
        for n, (first, line) in enumerate(know):
            if first and len(sentences) > 1:
                shapes.append(Words(know_at, base + n * step, "•", size, colour=GREY))
            shapes.append(Words(know_at + (7 if len(sentences) > 1 else 0), base + n * step, line, size))
        shapes.append(Stroke(((0, height), (PAGE_WIDTH, height)), PALE, 0.4))
        return Block(height, tuple(shapes))


def _sign(verdict: Verdict, x: float, y: float) -> Shape:
    """A sign for each verdict that is told apart without colour: full, ring, square and open square."""
    colour = COLOURS[verdict]
    if verdict == "fits":
        return Disc(x, y, 2.4, fill=colour)
    if verdict == "caution":
        return Disc(x, y, 2.1, stroke=colour, line_width=1.0)
    fill = colour if verdict == "does_not_fit" else None
    return Box(x - 2.2, y - 2.2, 4.4, 4.4, fill=fill, stroke=colour, line_width=0.9)
