"""A checked list as plain text, to be read on a terminal or pasted into a mail; a long one is written line by line."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence

from service.domain.units import Language
from service.present.planting_list_out.line_report import LineReport
from service.present.planting_list_out.report import ListReport
from service.present.planting_list_out.words import said

WIDTH = 78
_MARKS = {"fits": "+", "caution": "!", "does_not_fit": "x", "not_recognised": "?"}


def text_pieces(report: ListReport, lines: Iterable[LineReport]) -> Iterator[str]:
    """The text of a list, piece by piece."""
    language = report.language
    head = [report.headline, *_wrapped(report.totals), *_wrapped(report.place)]
    yield "\n".join([said("title", language), report.made, "", *head, ""])
    yield from _section("h_list", (*report.findings, *report.spoken), language)
    yield _heading("h_lines", language)
    for line in lines:
        yield "\n".join([*_line(line, language), ""])
    for key, sentences in (
        ("h_add", report.additions), ("h_mend", report.changes), ("h_order", report.order),
        ("h_cautions", report.cautions), ("h_ask", report.not_judged), ("h_limits", report.limits),
        ("h_sources", [f"{one.text}. {one.url}" if one.url else one.text for one in report.sources]),
    ):  # fmt: skip
        yield from _section(key, sentences, language)


def _line(line: LineReport, language: Language) -> Iterator[str]:
    yield from _wrapped(f"{_MARKS[line.verdict]} {line.line}. {line.written}", later="     ")
    what = said("read", language, what=line.read)
    yield from _wrapped(f"     {what}: {line.verdict_words.upper()}", later="     ")
    for sentence in (*line.sentences, *line.spoken):
        yield from _wrapped(f"     - {sentence}", later="       ")


def _section(key: str, sentences: Sequence[str], language: Language) -> Iterator[str]:
    if sentences:
        yield _heading(key, language)
        yield "\n".join(part for sentence in sentences for part in _wrapped(f"- {sentence}", later="  "))
        yield "\n"


def _heading(key: str, language: Language) -> str:
    words = said(key, language)
    return f"\n{words}\n{'-' * len(words)}\n"


def _wrapped(text: str, *, later: str = "") -> list[str]:
    """A text on lines of the width; addresses are left whole."""
    return textwrap.wrap(text, WIDTH, subsequent_indent=later, break_long_words=False, break_on_hyphens=False) or [""]
