"""How cells of our workbooks look, and how a text is written so that it stays a text."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from xlsxwriter import Workbook
from xlsxwriter.worksheet import Worksheet

from service.intake.shelf_cells import FORMULA_SIGNS

LONGEST = 32_767  # letters that a cell holds
_WRAPPED = {"text_wrap": True, "valign": "top"}
LOOKS: Mapping[str, Mapping[str, Any]] = {
    "title": {"bold": True, "font_size": 16},
    "headline": {"bold": True, "font_size": 12, "text_wrap": True},
    "heading": {"bold": True, "top": 1},
    "theirs": {"bold": True, "bg_color": "#E7E6E6", "bottom": 1, **_WRAPPED},
    "ours": {"bold": True, "bg_color": "#D7EAD2", "bottom": 1, **_WRAPPED},
    "written": {"valign": "top", "num_format": "@"},
    "said": _WRAPPED,
    "skipped": {"valign": "top", "italic": True, "font_color": "#5A625D"},
    "fits": {"bold": True, "font_color": "#1E6B2E", **_WRAPPED},
    "caution": {"bold": True, "font_color": "#8A5A00", **_WRAPPED},
    "does_not_fit": {"bold": True, "font_color": "#A61B1B", **_WRAPPED},
    "not_recognised": {"bold": True, "font_color": "#5A2D82", **_WRAPPED},
}


class Looks:
    """The looks of one workbook; those that guard a text from being run are made beside the plain ones."""

    def __init__(self, book: Workbook) -> None:
        self._plain = {name: book.add_format(dict(look)) for name, look in LOOKS.items()}
        self._guarded = {name: book.add_format({**look, "quote_prefix": True}) for name, look in LOOKS.items()}

    def text(self, sheet: Worksheet, at: tuple[int, int], text: str, *, look: str = "said") -> None:
        """Write a text as a text, whatever it begins with, in a row and a column."""
        looks = self._guarded if text.startswith(FORMULA_SIGNS) else self._plain
        shown = text if len(text) <= LONGEST else text[: LONGEST - 1] + "…"
        sheet.write_string(*at, shown, looks[look])

    def number(self, sheet: Worksheet, at: tuple[int, int], number: float) -> None:
        """Write a number as a number."""
        sheet.write_number(*at, number, self._plain["said"])
