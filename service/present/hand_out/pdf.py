"""A hand-out as a PDF of letter size, with the code that opens it on a phone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fpdf import FPDF
from fpdf.enums import XPos, YPos

from service.domain.units import Language
from service.present.hand_out.words import OF_SHEET, SOURCES, TAKE_CARE, day_of
from service.present.quick_code import code_grid

_FONT = "Helvetica"  # every reader of PDF has it
_CODE_MM = 32.0
_WRITTEN_OTHERWISE = str.maketrans({"≥": ">=", "≤": "<=", "→": "->", "−": "-", "×": "×", "⅓": "1/3", "⅔": "2/3"})


def hand_out_pdf(sheet: Mapping[str, Any], *, address: str, expires_on: str) -> bytes:
    """The PDF of a sheet that opens under this address until that day."""
    language: Language = sheet["language"]
    paper = _Paper(sheet["title"], language)
    paper.head(address, _made(sheet, expires_on))
    for topic in sheet["topics"]:
        paper.topic(topic)
    if sheet["cautions"]:
        paper.heading(TAKE_CARE[language])
        paper.lines(sheet["cautions"], "!")
    if sheet["sources"]:
        paper.small(f"{SOURCES[language]}: {'; '.join(sheet['sources'])}.")
    return bytes(paper.output())


def _made(sheet: Mapping[str, Any], expires_on: str) -> list[str]:
    language: Language = sheet["language"]
    made = OF_SHEET["made"][language].format(day=day_of(sheet["made_on"], language=language))
    expires = OF_SHEET["expires"][language].format(day=day_of(expires_on, language=language))
    return [f"{made} {OF_SHEET['rulebook'][language].format(digest=sheet['rulebook'][:12])}", expires]


class _Paper(FPDF):
    def __init__(self, title: str, language: Language) -> None:
        super().__init__(format="letter")
        self.core_fonts_encoding = "cp1252"
        self.set_title(title)
        self.set_lang(language)
        self.set_margin(18)
        self.set_auto_page_break(True, margin=18)
        self.add_page()

    def footer(self) -> None:
        """Number the pages."""
        self.set_y(-14)
        self.set_font(_FONT, size=9)
        self.cell(0, 6, str(self.page_no()), align="C")

    def head(self, address: str, lines: list[str]) -> None:
        """The title, the code, and what the page is."""
        left = self.epw - _CODE_MM - 6
        top = self.get_y()
        self._code(address, self.l_margin + self.epw - _CODE_MM, top)
        self.set_font(_FONT, "B", 20)
        self._text(self.title or "", 9, width=left)
        self.set_font(_FONT, size=10)
        for line in [*lines, address]:
            self._text(line, 5, width=left)
        self.set_y(max(self.get_y(), top + _CODE_MM) + 4)

    def topic(self, topic: Mapping[str, Any]) -> None:
        """One topic with its blocks."""
        self.set_font(_FONT, "B", 15)
        self.ln(2)
        self._text(topic["title"], 7)
        self.set_font(_FONT, size=11)
        if topic["text"]:
            self._text(topic["text"], 5.5)
        for block in topic["blocks"]:
            self.heading(block["heading"])
            self.lines(block["lines"], None if block["kind"] == "steps" else "•")

    def heading(self, text: str) -> None:
        """A heading within a topic."""
        self.ln(2)
        self.set_font(_FONT, "B", 12)
        self._text(text, 6)
        self.set_font(_FONT, size=11)

    def lines(self, lines: list[str], mark: str | None) -> None:
        """Lines behind a mark, or numbered."""
        for number, line in enumerate(lines, 1):
            if self.will_page_break(6):
                self.add_page()
            self.cell(8, 5.5, mark or f"{number}.")
            self._text(line, 5.5, width=self.epw - 8)

    def small(self, text: str) -> None:
        """A paragraph in small letters."""
        self.ln(3)
        self.set_font(_FONT, size=8)
        self._text(text, 3.8)

    def _text(self, text: str, height_mm: float, *, width: float = 0) -> None:
        said = text.translate(_WRITTEN_OTHERWISE).encode("cp1252", "replace").decode("cp1252")
        self.multi_cell(width, height_mm, said, align="L", new_x=XPos.LMARGIN, new_y=YPos.NEXT)

    def _code(self, address: str, left: float, top: float) -> None:
        grid = code_grid(address)
        side = _CODE_MM / len(grid)
        self.set_fill_color(0, 0, 0)
        for row, fields in enumerate(grid):
            for column, dark in enumerate(fields):
                if dark:
                    self.rect(left + column * side, top + row * side, side, side, style="F")
