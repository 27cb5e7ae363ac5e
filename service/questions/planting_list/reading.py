"""Lists that are answered at once: the reader for a rulebook, made once, and the lines of a stream as one list."""

from __future__ import annotations

from functools import lru_cache

from service.domain.errors import TooLarge
from service.domain.planting_list import ReadLine, ReadList, Skipped
from service.intake.planting_list import ListReader, Stream
from service.reasoning.rulebook import Rulebook

LIST_WIDE = "planting_list.list_wide.lines"
_SKIPPED_KEPT = 1_000


@lru_cache(maxsize=4)
def list_reader(rulebook: Rulebook) -> ListReader:
    """Reads lists by the names of this rulebook."""
    return ListReader(rulebook.catalogue)


def gather(stream: Stream, *, most: int, pointer: str) -> ReadList:
    """The list in a stream; TooLarge, pointing at what was sent, where it has more lines than are answered at once.

    Of rows that are no lines of the list, such as the prose of a mail, so many are told and the rest is not kept.
    """
    lines, skipped = list[ReadLine](), list[Skipped]()
    for one in stream:
        if isinstance(one, ReadLine):
            lines.append(one)
        elif len(skipped) < _SKIPPED_KEPT:
            skipped.append(one)
        if len(lines) > most:
            raise TooLarge((pointer, f"the list has more than {most:,} lines; so many are answered at once"))
    return ReadList(tuple(lines), tuple(skipped), tuple(stream.sources), stream.limits_hit)
