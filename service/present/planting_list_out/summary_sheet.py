"""The first and the last sheet of the workbook: the list in words, and the list after the cheapest repair."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from xlsxwriter.worksheet import Worksheet

from service.domain.units import Language
from service.present.planting_list_out.report import ListReport
from service.present.planting_list_out.sheet_cells import Looks
from service.present.planting_list_out.words import said

_WIDE, _NARROW = 100, 60
_MENDED = (("c_line", 8), ("c_change", 18), ("c_trees", 8), ("c_cultivar", 34), ("c_rootstock", 28))


def write_summary(sheet: Worksheet, report: ListReport, looks: Looks) -> None:
    """Write the list in words, a sentence a row."""
    sheet.set_column(0, 0, _WIDE)
    sheet.set_column(1, 1, _NARROW)
    for row, (look, *texts) in enumerate(_rows(report)):
        for column, text in enumerate(texts):
            if text:
                looks.text(sheet, (row, column), text, look=look)


def _rows(report: ListReport) -> Iterator[tuple[str, ...]]:
    language = report.language
    yield "title", said("title", language)
    yield "said", report.made
    yield "headline", report.headline
    yield "said", report.totals
    yield "said", report.place
    for key, sentences in (
        ("h_list", (*report.findings, *report.spoken)), ("h_add", report.additions), ("h_mend", report.changes),
        ("h_order", report.order), ("h_cautions", report.cautions), ("h_ask", report.not_judged),
        ("h_limits", report.limits),
    ):  # fmt: skip
        if sentences:
            yield "said", ""
            yield "heading", said(key, language)
            yield from (("said", sentence) for sentence in sentences)
    yield "said", ""
    yield "heading", said("h_sources", language)
    yield from (("said", source.text, source.url or "") for source in report.sources)
    yield "said", said("common_practice", language)


def write_mended(sheet: Worksheet, repair: Mapping[str, Any], language: Language, *, looks: Looks) -> None:
    """Write the list as it stands after the repair, each change marked."""
    for column, (heading, width) in enumerate(_MENDED):
        sheet.set_column(column, column, width)
        looks.text(sheet, (0, column), said(heading, language), look="ours")
    sheet.freeze_panes(1, 0)
    for row, line in enumerate(_mended(repair), 1):
        change = line["change"]
        look = "said" if change == "keep" else "does_not_fit" if change == "drop" else "caution"
        if line["line"] is not None:
            looks.number(sheet, (row, 0), line["line"])
        looks.text(sheet, (row, 1), said(change, language), look=look)
        looks.number(sheet, (row, 2), line["trees"])
        looks.text(sheet, (row, 3), " / ".join(one["name"] for one in line["cultivars"]))
        looks.text(sheet, (row, 4), line["rootstock"]["name"] if line["rootstock"] else "")


def _mended(repair: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    yield from repair["lines"]
    for tree in repair["added"]:
        yield {"line": None, "change": "added", "trees": 1, "cultivars": [tree], "rootstock": tree["rootstock"]}
