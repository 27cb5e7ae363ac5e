"""What was sent, opened: a file, a text or a mail as tables of rows, by what it is and not by its name."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import chain, islice
from typing import BinaryIO

from service.domain.errors import NotUnderstood, TooLarge
from service.domain.planting_list import Place, Source
from service.intake.planting_list.decoded import encoding_of, lines_of, text_from
from service.intake.planting_list.html_text import html_text
from service.intake.planting_list.limits import ListLimits, amount
from service.intake.planting_list.mail import MailPart, head_of, parts_of
from service.intake.planting_list.mail_text import own_text
from service.intake.planting_list.separated import Row, separator_of, split_rows
from service.intake.planting_list.sniff import HEAD_BYTES, sort_of
from service.intake.planting_list.workbook import rows_of, sheets_of, visible_names

_LOOKED_AT = 200
_LEADERS = re.compile(r"\.{3,}|…+|_{3,}|\t+")
_RULER = re.compile(r"[\s|:+=-]*")


@dataclass(frozen=True, slots=True)
class Upload:
    """A file that somebody sent: its bytes, or a file to read them from, and its name."""

    content: bytes | BinaryIO
    name: str | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """Rows from one source; `prose` are lines of free text."""

    source: Source
    rows: Iterable[Row]
    prose: bool = False


class Opener:
    """Opens what was sent; `hit` gathers sentences on what was left out."""

    def __init__(self, limits: ListLimits) -> None:
        self.limits, self.hit = limits, list[str]()

    def tables(self, upload: Upload) -> Iterator[Table]:
        """The tables of a file."""
        file = io.BytesIO(upload.content) if isinstance(upload.content, bytes) else upload.content
        if file.seek(0, io.SEEK_END) > self.limits.bytes:
            raise TooLarge(("/file", f"the file is larger than {amount(self.limits.bytes)}; send it in parts"))
        yield from self._tables(file, Place(file=upload.name), mailed=False)

    def text_tables(self, text: str) -> Iterator[Table]:
        """The tables of a text that was pasted, be it a mail with its headers."""
        if len(text) > self.limits.body_characters:
            raise TooLarge(("/text", f"the text is longer than {self.limits.body_characters:,} letters; send a file"))
        yield from self._tables(io.BytesIO(text.encode("utf-8", "replace")), Place(), mailed=False)

    def _tables(self, file: BinaryIO, place: Place, *, mailed: bool) -> Iterator[Table]:
        file.seek(0)
        head = file.read(HEAD_BYTES)
        file.seek(0)
        sort = sort_of(head)
        if sort == "zip":
            yield from self._sheets(file, place)
        elif sort == "mail" and not mailed:
            yield from self._mail(file, place)
        elif sort == "html":
            longest = self.limits.body_characters
            page = html_text(text_from(file.read(20 * longest)), longest=longest)
            yield self._lines(page.splitlines(keepends=True), Source(place, "text", encoding="html"))
        else:
            yield self._text(file, place)

    def _sheets(self, file: BinaryIO, place: Place) -> Iterator[Table]:
        kind, book = sheets_of(file, self.limits)
        names = visible_names(book)
        if len(names) > self.limits.sheets:
            self.hit.append(f"The workbook has {len(names)} sheets; the first {self.limits.sheets} were read.")
        for name in names[: self.limits.sheets]:
            yield Table(Source(replace(place, sheet=name), kind), self._limited(rows_of(book, name, self.limits)))

    def _mail(self, file: BinaryIO, place: Place) -> Iterator[Table]:
        data = file.read(self.limits.mail_bytes + 1)
        if len(data) > self.limits.mail_bytes:
            raise TooLarge(("/file", f"the mail is larger than {amount(self.limits.mail_bytes)}; send the list alone"))
        head = head_of(data)
        for part in parts_of(data, self.limits, self.hit):
            for table in self._part(part, replace(place, attachment=part.name)):
                yield replace(table, source=replace(table.source, mail=head))

    def _part(self, part: MailPart, place: Place) -> Iterator[Table]:
        if part.sort == "body":
            yield self._lines(part.text.splitlines(keepends=True), Source(place, "mail"))
            return
        try:
            yield from self._tables(io.BytesIO(part.data), place, mailed=True)
        except NotUnderstood as refused:
            self.hit.append(f"The attachment “{part.name}” was not read: {refused.faults[0][1]}.")

    def _text(self, file: BinaryIO, place: Place) -> Table:
        encoding = encoding_of(file)
        lines = lines_of(file, encoding)
        first = list(islice(lines, _LOOKED_AT))
        if len(first) < _LOOKED_AT and any(line.lstrip().startswith(">") for line in first):
            first = own_text("".join(first)).splitlines(keepends=True)
        return self._lines(first, Source(place, "text", encoding=encoding), more=lines)

    def _lines(self, first: list[str], source: Source, *, more: Iterable[str] = ()) -> Table:
        """Lines as columns where a mark parts them steadily, else as free text."""
        looked = [line for line in first[:_LOOKED_AT] if not _RULER.fullmatch(line)]
        separator = separator_of(looked)
        if separator is None:
            free = ((number, _cells(line)) for number, line in enumerate(chain(first, more), 1))
            return Table(source, self._limited(free), prose=True)
        rows = split_rows(chain(first, more), separator, columns=self.limits.columns)
        kind = "columns" if source.kind == "text" else source.kind
        trimmed = ((number, _framed(cells) if separator == "|" else cells) for number, cells in rows)
        return Table(replace(source, kind=kind, separator=separator), self._limited(trimmed))

    def _limited(self, rows: Iterator[Row]) -> Iterator[Row]:
        for count, (number, cells) in enumerate(rows, 1):
            if count > self.limits.rows:
                raise TooLarge(("/file", f"the list has more than {self.limits.rows:,} rows; send it in parts"))
            yield number, [_cell(cell[: self.limits.cell_characters + 1]) for cell in cells]


def _cells(line: str) -> list[str]:
    """A line of free text, cut where dots or tabs lead from one column to the next."""
    return [cell.strip() for cell in _LEADERS.split(line) if cell.strip()]


def _framed(cells: list[str]) -> list[str]:
    """A row of a table drawn with strokes, without its frame and its rulers."""
    inner = cells[1:-1] if len(cells) > 2 and not cells[0].strip() and not cells[-1].strip() else cells
    return [] if all(_RULER.fullmatch(cell) for cell in inner) else inner


def _cell(text: str) -> str:
    return " ".join(text.split()) if "\n" in text or "  " in text else text.strip()
