"""The door of this room: files, texts and rows in, lists out, all at once or line by line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from service.domain.errors import TooLarge
from service.domain.planting_list import Place, ReadLine, ReadList, Skipped, Source
from service.intake.planting_list.lexicon import Lexicon
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.lines import RowReader
from service.intake.planting_list.tables import Opener, Table, Upload
from service.knowledge.catalogue import Catalogue


class Stream:
    """Lines and skipped rows as they are read; `sources` and `limits_hit` are whole when the stream has ended."""

    def __init__(self, reader: RowReader, opener: Opener, tables: Iterable[Table]) -> None:
        self._reader, self._opener, self._tables = reader, opener, tables
        self.sources: list[Source] = []

    @property
    def limits_hit(self) -> tuple[str, ...]:
        """Sentences on what was left out."""
        return tuple(self._opener.hit)

    def __iter__(self) -> Iterator[ReadLine | Skipped]:
        start = 0
        for table in self._tables:
            opened = self._reader.opened(table)
            self.sources.append(opened.source)
            for one in self._reader.read(opened, start):
                start = one.line if isinstance(one, ReadLine) else start
                yield one


class ListReader:
    """Reads planting lists by the names of a catalogue."""

    def __init__(self, catalogue: Catalogue, limits: ListLimits | None = None) -> None:
        self.limits, self._lexicon = limits or ListLimits(), Lexicon(catalogue)
        self._rows = RowReader(self._lexicon, self.limits)

    def with_limits(self, limits: ListLimits) -> ListReader:
        """A reader of the same names with other limits."""
        return ListReader(self._lexicon.catalogue, limits)

    def stream(self, upload: Upload) -> Stream:
        """The lines of a file one by one, in little memory."""
        opener = Opener(self.limits)
        return Stream(self._rows, opener, opener.tables(upload))

    def stream_text(self, text: str) -> Stream:
        """The lines of a text that was pasted."""
        opener = Opener(self.limits)
        return Stream(self._rows, opener, opener.text_tables(text))

    def stream_rows(self, rows: Sequence[Sequence[str]]) -> Stream:
        """The lines of rows of cells, with or without a row of headings."""
        if len(rows) > self.limits.rows:
            raise TooLarge(("/rows", f"the list has more than {self.limits.rows:,} rows; send it in parts"))
        cells = ((number, [cell.strip() for cell in row]) for number, row in enumerate(rows, 1))
        return Stream(self._rows, Opener(self.limits), [Table(Source(Place(), "columns"), cells)])

    def read(self, upload: Upload) -> ReadList:
        """The whole list of a file."""
        return _whole(self.stream(upload), self.limits.lines_at_once)

    def read_text(self, text: str) -> ReadList:
        """The whole list of a text."""
        return _whole(self.stream_text(text), self.limits.lines_at_once)

    def read_rows(self, rows: Sequence[Sequence[str]]) -> ReadList:
        """The whole list of rows of cells."""
        return _whole(self.stream_rows(rows), self.limits.lines_at_once)


def _whole(stream: Stream, most: int) -> ReadList:
    read: list[ReadLine | Skipped] = []
    for one in stream:
        read.append(one)
        if len(read) > most:
            raise TooLarge(("/file", f"the list has more than {most:,} lines; send it in parts"))
    return ReadList(
        lines=tuple(one for one in read if isinstance(one, ReadLine)),
        skipped=tuple(one for one in read if isinstance(one, Skipped)),
        sources=tuple(stream.sources),
        limits_hit=stream.limits_hit,
    )
