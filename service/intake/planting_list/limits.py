"""How much of a list is taken. What is above a limit is refused with a sentence, or left out and told."""

from __future__ import annotations

from dataclasses import dataclass

_MIB = 1024 * 1024


@dataclass(frozen=True, slots=True)
class ListLimits:
    """The limits of reading; a file is held to them before it is unpacked.

    `lines_at_once` is the longest list that is held whole; longer ones are read as a stream.

    `workbook_cells` counts the rectangle from the first cell to the last, as a spreadsheet in memory needs it.
    `memory_bytes` is what reading any file adds to the process at most; a test measures it.
    """

    bytes: int = 128 * _MIB
    rows: int = 1_048_576
    lines_at_once: int = 100_000
    columns: int = 64
    cell_characters: int = 2_000
    packed_bytes: int = 32 * _MIB
    unpacked_bytes: int = 64 * _MIB
    workbook_parts: int = 2_000
    workbook_cells: int = 1_000_000
    sheets: int = 20
    mail_bytes: int = 32 * _MIB
    mail_depth: int = 4
    mail_parts: int = 100
    body_characters: int = 1_000_000
    names_on_a_tree: int = 12
    most_trees: int = 100_000
    memory_bytes: int = 256 * _MIB


def amount(count: int) -> str:
    """A number of bytes as people say it.

    >>> amount(32 * 1024 * 1024), amount(2048), amount(12)
    ('32 MB', '2 KB', '12 bytes')
    """
    if count >= _MIB:
        return f"{count // _MIB} MB"
    return f"{count // 1024} KB" if count >= 1024 else f"{count} bytes"
