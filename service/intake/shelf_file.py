"""A shelf in a file: CSV or a workbook in, CSV out. The columns are told in `shelf_columns.py`."""

from __future__ import annotations

import csv
import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from service.domain.errors import NotUnderstood, TooLarge
from service.intake.planting_list.decoded import text_from
from service.intake.planting_list.limits import ListLimits
from service.intake.planting_list.workbook import rows_of, sheets_of, visible_names
from service.intake.shelf_cells import write_cell
from service.intake.shelf_columns import RATE, SITES, Column, column, fields
from service.intake.shelf_table import Row

MEGABYTE = 1024 * 1024
MOST_BYTES = 8 * MEGABYTE
LONGEST_CELL = 40_000
LIMITS = ListLimits(packed_bytes=MOST_BYTES, unpacked_bytes=48 * MEGABYTE, columns=400, workbook_cells=2_000_000)
_SEPARATORS = (",", ";", "\t")


def rows_of_csv(body: bytes) -> Iterator[Row]:
    """The rows of a CSV file under the numbers that a spreadsheet gives them."""
    _check_size(body)
    text = text_from(body)
    separator = Counter(letter for letter in text.split("\n", 1)[0] if letter in _SEPARATORS).most_common(1)
    csv.field_size_limit(max(csv.field_size_limit(), LONGEST_CELL))
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator[0][0] if separator else ",", strict=True)
    try:
        yield from enumerate(reader, 1)
    except csv.Error as fault:
        raise NotUnderstood(("", f"line {reader.line_num} cannot be read as columns ({fault})")) from None


def rows_of_workbook(body: bytes) -> Iterator[Row]:
    """The rows of the first sheet of a workbook that a person sees."""
    _check_size(body)
    try:
        _, book = sheets_of(io.BytesIO(body), LIMITS)
        names = visible_names(book)
        if not names:
            raise NotUnderstood(("", "the workbook has no sheet that can be seen"))
        yield from rows_of(book, names[0], LIMITS)
    except NotUnderstood as fault:
        raise NotUnderstood(*(("", sentence) for _, sentence in fault.faults)) from None


def shelf_csv(records: Sequence[Mapping[str, Any]]) -> str:
    """Plain label records as a CSV file with a row for each printed crop name; reading it gives the same records."""
    columns = list(_columns_for(records))
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([one.name for one in columns])
    for record in records:
        for number, site in enumerate(record[SITES] or [{}]):
            writer.writerow([_cell(record, site, one) if number == 0 or one.of_site or one.name == "id" else ""
                             for one in columns])  # fmt: skip
    return out.getvalue()


def _check_size(body: bytes) -> None:
    if len(body) > MOST_BYTES:
        raise TooLarge(("", f"the file is larger than {MOST_BYTES // MEGABYTE} MB; give the products in parts"))


def _columns_for(records: Sequence[Mapping[str, Any]]) -> Iterator[Column]:
    """The columns in their order, a list of objects with as many as the longest needs."""
    groups: dict[tuple[str, ...], list[Column]] = {}
    for one in fields().values():
        groups.setdefault(one.listed if not one.of_site else (), []).append(one)
    for one in fields().values():
        if one.path[-1] == RATE:
            continue
        if not one.listed or one.of_site:
            yield one
        elif groups[one.listed][0] is one:
            most = max((len(_under(record, one.listed) or ()) for record in records), default=0)
            for place in range(1, max(most, 1) + 1):
                for each in groups[one.listed]:
                    name = ".".join((*each.listed, str(place), *each.path))
                    yield column(name) or each


def _cell(record: Mapping[str, Any], site: Mapping[str, Any], one: Column) -> str:
    if one.of_site:
        return write_cell(site.get(one.path[-1]), one)
    if not one.listed:
        return write_cell(_under(record, one.path), one)
    entries = _under(record, one.listed) or []
    place = (one.place or 1) - 1
    return write_cell(_under(entries[place], one.path), one) if place < len(entries) else ""


def _under(place: Any, path: Sequence[str]) -> Any:
    for step in path:
        place = place.get(step) if place is not None else None
    return place
