"""A checked list on one or two pages to print: verdicts in words, the sketch, the harvest, cautions and sources.

What is told grows less from step to step until it goes on two pages: first fewer sentences and smaller drawings, then
a single row of type for each line, and at last the lines that need least are left to the spreadsheet. What is left out
is always told.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from service.present.drawings.shapes import GREY, Drawing, Words
from service.present.paper import LETTER, Paper
from service.present.planting_list_out.blocks import Block, Setter
from service.present.planting_list_out.line_report import LineReport
from service.present.planting_list_out.picture import drawings_of
from service.present.planting_list_out.report import ListReport
from service.present.planting_list_out.words import said

PAGES = 2
_MARGIN, _TOP, _FOOT = 51.0, 44.0, 48.0
_ROOM = LETTER[1] - _TOP - _FOOT
MOST_ROWS = 90
_CHANGES = 30  # that run on in one paragraph
_TOGETHER = 8  # sentences of a section that stay on one page


@dataclass(frozen=True, slots=True)
class _Measure:
    """How much is told: sentences a line (0: as much as goes in one row of type), sentences on the list, sources, and
    the scale of drawings."""

    sentences: int
    findings: int
    sources: int
    scale: float


_TOLD = (
    (8, 99, 99), (5, 99, 99), (4, 99, 40), (3, 99, 24), (3, 18, 24), (3, 14, 16), (2, 14, 16), (2, 12, 12), (1, 12, 12),
    (1, 8, 12), (0, 10, 12), (0, 6, 8),
)  # fmt: skip
_SCALES, _SMALL = (1.0, 0.9, 0.8, 0.72), 0.62
_MEASURES = tuple(_Measure(*told, scale) for told in _TOLD for scale in _SCALES)
_LEAST = _Measure(0, 6, 8, _SMALL)


def sheet_pdf(answer: Mapping[str, Any], report: ListReport, lines: Sequence[LineReport]) -> bytes:
    """The sheet; `lines` are those that need something most, and may be fewer than the list has."""
    paper = Paper(said("title", report.language), report.language)
    measure = lru_cache(maxsize=None)(lambda text, size, bold: paper.width_of(text, size, bold=bold))
    sheet = _Sheet(answer, report, Setter(measure))
    for number, blocks in enumerate(pages := sheet.pages(lines), 1):
        paper.add_page()
        top = _TOP
        for block in blocks:
            paper.draw(block.shapes, x=_MARGIN + sheet.aside(block), y=top, scale=block.scale)
            top += block.height
        foot = said("page", report.language, page=number, pages=len(pages))
        paper.draw([Words(0, 0, foot, 7, "middle", colour=GREY)], x=LETTER[0] / 2, y=LETTER[1] - 26)
    return bytes(paper.output())


class _Sheet:
    def __init__(self, answer: Mapping[str, Any], report: ListReport, setter: Setter) -> None:
        self.answer, self.report, self.setter = answer, report, setter
        self.rows: dict[tuple[int, int], Block] = {}
        drawn = list(drawings_of(answer))
        mended = [(heading, one) for heading, one in drawn if one.name == "mended-sketch"]
        self.drawings = [one for one in drawn if not (mended and one[1].name == "planting-sketch")]

    def aside(self, block: Block) -> float:
        """A drawing that is made smaller stands in the middle."""
        return (1 - block.scale) * (LETTER[0] - 2 * _MARGIN) / 2

    def said(self, key: str, **values: object) -> str:
        return said(key, self.report.language, **values)

    def pages(self, lines: Sequence[LineReport]) -> list[list[Block]]:
        """The blocks of each page."""
        shown = sorted(lines, key=lambda line: line.gravity)[:MOST_ROWS]
        for measure in _MEASURES:
            pages = _flowed(self.blocks(shown, measure))
            if len(pages) <= PAGES:
                return pages
        rows = bisect_left(range(len(shown) + 1), True, key=lambda cut: self.fits(shown[: len(shown) - cut]))
        return _flowed(self.blocks(shown[: len(shown) - rows], _LEAST))[:PAGES]

    def fits(self, lines: Sequence[LineReport]) -> bool:
        """Whether so many lines go on the pages when the least is told of them."""
        return len(_flowed(self.blocks(lines, _LEAST))) <= PAGES

    def blocks(self, lines: Sequence[LineReport], measure: _Measure) -> list[Block]:
        """All blocks, so much being told."""
        report, setter = self.report, self.setter
        return [
            setter.title(self.said("title"), report.made),
            setter.headline(report.headline, self.answer["verdict"]),
            setter.paragraph(report.totals, size=8.5, colour=GREY),
            setter.paragraph(report.place, size=8.5, colour=GREY),
            *self.findings(measure),
            *self.table(lines, measure),
            *self.listed("h_add", () if report.changes else report.additions),
            *self.changed(),
            *self.listed("h_order", report.order),
            *(block for heading, drawing in self.drawings for block in self.drawn(heading, drawing, measure)),
            *self.listed("h_cautions", report.cautions),
            *self.asked(),
            *self.listed("h_limits", report.limits),
            *self.sources(measure),
        ]

    def findings(self, measure: _Measure) -> Iterator[Block]:
        """What holds of the whole list, the weighty first."""
        told = (*self.report.findings, *self.report.spoken)
        yield from self.listed("h_list", told[: measure.findings])
        if len(told) > measure.findings:
            yield self.setter.paragraph(self.said("more_findings"), size=7.5, colour=GREY)

    def table(self, lines: Sequence[LineReport], measure: _Measure) -> Iterator[Block]:
        """The lines in the order of the list."""
        if not lines:
            return
        yield self.setter.heading(self.said("h_lines"))
        yield self.setter.head_row([self.said(key) for key in ("c_line", "c_written", "c_verdict", "c_findings")])
        for line in sorted(lines, key=lambda line: line.line):
            yield self.row(line, measure.sentences)
        more = self.answer["totals"]["lines"] - len(lines)
        if more > 0:
            yield self.setter.paragraph(self.said("more_lines", count=f"{more:,}"), colour=GREY)

    def row(self, line: LineReport, sentences: int) -> Block:
        """One line; each is set once for each number of sentences."""
        block = self.rows.get((line.line, sentences))
        if block is None:
            told = line.sentences or line.spoken
            if sentences:
                cells = (str(line.line), line.written, self.said("read", what=line.read), line.verdict_words)
                block = self.setter.row(cells, told[:sentences], line.verdict)
            else:
                one = line.written if line.verdict == "not_recognised" else line.read
                block = self.setter.short_row((str(line.line), one, line.verdict_words, *told[:1]), line.verdict)
            self.rows[line.line, sentences] = block
        return block

    def listed(self, key: str, sentences: Sequence[str]) -> Iterator[Block]:
        if sentences:
            yield self.setter.heading(self.said(key))
            together = len(sentences) <= _TOGETHER
            for number, sentence in enumerate(sentences, 1):
                block = self.setter.paragraph(sentence, mark="•")
                yield replace(block, with_next=together and number < len(sentences))

    def changed(self) -> Iterator[Block]:
        """What the mended list changes; many changes run on in one paragraph."""
        changes = self.report.changes
        if len(changes) <= _TOGETHER:
            yield from self.listed("h_mend", changes)
        else:
            yield self.setter.heading(self.said("h_mend"))
            *shown, after = [*changes[:_CHANGES], changes[-1]]
            more = len(changes) - len(shown) - 1
            told = [*shown, self.said("more_changes", count=more)] if more > 0 else list(changes[:-1])
            yield self.setter.paragraph(" ".join([*told, after]))

    def drawn(self, heading: str, drawing: Drawing, measure: _Measure) -> Iterator[Block]:
        yield self.setter.heading(heading)
        yield Block(drawing.height * measure.scale + 4, drawing.shapes, scale=measure.scale)

    def asked(self) -> Iterator[Block]:
        """What nobody told, in one paragraph."""
        if self.report.not_judged:
            yield self.setter.heading(self.said("h_ask"))
            yield self.setter.paragraph("; ".join(self.report.not_judged) + ".", size=7.5)

    def sources(self, measure: _Measure) -> Iterator[Block]:
        """Who says so, in one small paragraph; the addresses stand in the spreadsheet."""
        named = [source.text for source in self.report.sources]
        told = named[: measure.sources]
        if len(named) > len(told):
            told.append(self.said("more_sources", count=len(named) - len(told)))
        yield self.setter.heading(self.said("h_sources"))
        told_all = f"{'; '.join(told)}. " if told else ""
        yield self.setter.paragraph(told_all + self.said("common_practice"), size=6.3, colour=GREY)


def _flowed(blocks: Sequence[Block]) -> list[list[Block]]:
    """Blocks on pages; one that must stand with the next goes over with it."""
    pages: list[list[Block]] = [[]]
    left, place = _ROOM, 0
    while place < len(blocks):
        end = place + 1
        while blocks[end - 1].with_next and end < len(blocks):
            end += 1
        together = blocks[place:end]
        height = sum(block.height for block in together)
        if height > left and pages[-1]:
            pages.append([])
            left = _ROOM
        pages[-1].extend(together)
        left -= height
        place = end
    return pages
