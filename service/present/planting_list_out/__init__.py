"""What goes out of a checked planting list: JSON, a workbook, a sheet to print, a text, a mail, a picture.

All of it is made of the answer as it is told, so that a result that was kept is written again at any time. A long list
is written line by line.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from heapq import nsmallest
from typing import Any, BinaryIO, Literal, get_args

import orjson

from service.present.drawings.svg import svg_of
from service.present.planting_list_out.line_report import line_report
from service.present.planting_list_out.mail import Attached, draft
from service.present.planting_list_out.picture import picture_of
from service.present.planting_list_out.plain_text import text_pieces
from service.present.planting_list_out.report import ListReport, list_report
from service.present.planting_list_out.sheet import MOST_ROWS, sheet_pdf
from service.present.planting_list_out.workbook import write_workbook

Format = Literal["json", "xlsx", "pdf", "text", "eml", "svg"]
FORMATS: tuple[Format, ...] = get_args(Format)
MEDIA_TYPES: Mapping[Format, str] = {
    "json": "application/json",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "pdf": "application/pdf",
    "text": "text/plain",
    "eml": "message/rfc822",
    "svg": "image/svg+xml",
}
SUFFIXES: Mapping[Format, str] = {
    "json": ".json", "xlsx": ".xlsx", "pdf": ".pdf", "text": ".txt", "eml": ".eml", "svg": ".svg",
}  # fmt: skip
Told = Mapping[str, Any]


def render(told: Told, format: Format, *, on: date) -> bytes:
    """An answer with its lines in this format, as of a day."""
    out = io.BytesIO()
    write(told, format, out, on=on)
    return out.getvalue()


def write(told: Told, format: Format, out: BinaryIO, *, on: date) -> None:
    """Write an answer; the lines in it may be anything that gives them one by one, and each is taken once."""
    if format == "json":
        out.writelines(_json(told))
    elif format == "svg":
        out.write(svg_of(picture_of(told["answer"])).encode())
    else:
        _Writer(told, on).write(format, out)


class _Writer:
    def __init__(self, told: Told, on: date) -> None:
        self.told, self.on, self.answer = told, on, told["answer"]
        lines: Iterable[Told] = self.answer["lines"]
        self.language = self.answer["language"]
        # the lines that others name are held: only a list that is looked at as a whole has such, and it is short
        self.lines = list(lines) if self.answer["repair"] else lines

    def write(self, format: Format, out: BinaryIO) -> None:
        if format == "xlsx":
            write_workbook(self.told, self.lines, report=self.report, out=out)
        elif format == "text":
            out.writelines(piece.encode() for piece in self.text())
        elif format == "pdf":
            out.write(self.pdf())
        else:
            out.write(self.mail())

    @property
    def report(self) -> ListReport:
        held = self.lines if isinstance(self.lines, list) else ()
        return list_report(self.told, {line["line"]: line for line in held}, on=self.on)

    def text(self) -> Iterator[str]:
        return text_pieces(self.report, (line_report(line, self.language) for line in self.lines))

    def pdf(self) -> bytes:
        lines = (line_report(line, self.language) for line in self.lines)
        return sheet_pdf(self.answer, self.report, nsmallest(MOST_ROWS, lines, key=lambda line: line.gravity))

    def mail(self) -> bytes:
        self.lines = list(self.lines)
        book = io.BytesIO()
        write_workbook(self.told, self.lines, report=self.report, out=book)
        files = (Attached("planting-list.pdf", MEDIA_TYPES["pdf"], self.pdf()),
                 Attached("planting-list.xlsx", MEDIA_TYPES["xlsx"], book.getvalue()))  # fmt: skip
        return draft(self.answer, "".join(self.text()), files)


def with_lines(told: Told, lines: Iterable[Told]) -> Told:
    """The answer with other lines in it."""
    return {**told, "answer": {**told["answer"], "lines": lines}}


def _json(told: Told) -> Iterator[bytes]:
    """The answer as JSON, line by line."""
    answer = {name: value for name, value in told["answer"].items() if name != "lines"}
    yield orjson.dumps({name: value for name, value in told.items() if name != "answer"})[:-1]
    yield b',"answer":' + orjson.dumps(answer)[:-1] + b',"lines":['
    between = b""
    for line in told["answer"]["lines"]:
        yield between + orjson.dumps(line)
        between = b","
    yield b"]}}"
