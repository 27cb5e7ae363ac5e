"""The sheets of a workbook (.xlsx, .ods): their values as text, a formula by the value that is kept beside it."""

from __future__ import annotations

import datetime
import io
import zipfile
from collections.abc import Iterator
from typing import Any, BinaryIO

from python_calamine import CalamineError, CalamineSheet, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

from service.domain.errors import NotUnderstood, TooLarge
from service.domain.planting_list import Kind
from service.intake.planting_list.extent import check_extent
from service.intake.planting_list.limits import ListLimits, amount
from service.intake.planting_list.separated import Row
from service.intake.planting_list.unpacked import unpacked

_DAMAGED = "the workbook is damaged; save it anew as .xlsx"


def sheets_of(file: BinaryIO, limits: ListLimits) -> tuple[Kind, CalamineWorkbook]:
    """The kind of a workbook, and the workbook, checked and ready to read."""
    size = file.seek(0, io.SEEK_END)
    file.seek(0)
    if size > limits.packed_bytes:
        raise TooLarge(("/file", f"the workbook is larger than {amount(limits.packed_bytes)}; send the list as .csv"))
    kind, clean = unpacked(file, limits)
    with zipfile.ZipFile(clean) as book:
        check_extent(kind, book, limits)
    clean.seek(0)
    return kind, _guarded(CalamineWorkbook.from_filelike, clean)


def visible_names(book: CalamineWorkbook) -> list[str]:
    """The names of the sheets that a person sees."""
    return [
        sheet.name
        for sheet in book.sheets_metadata
        if sheet.typ == SheetTypeEnum.WorkSheet and sheet.visible == SheetVisibleEnum.Visible
    ]


def rows_of(book: CalamineWorkbook, name: str, limits: ListLimits) -> Iterator[Row]:
    """The rows of a sheet under their numbers in the spreadsheet."""
    sheet: CalamineSheet = _guarded(book.get_sheet_by_name, name)
    first = sheet.start[0] if sheet.start else 0
    for number, cells in enumerate(sheet.iter_rows(), 1):
        if number > first:
            yield number, [_as_text(cell) for cell in cells[: limits.columns]]


def _guarded(act: Any, given: Any) -> Any:
    """Do what a reader written in another language does, and tell its failure as ours."""
    try:
        return act(given)
    except (CalamineError, OSError, ValueError):
        raise NotUnderstood(("/file", _DAMAGED)) from None
    except BaseException as fault:
        if type(fault).__name__ == "PanicException":  # the library cannot be asked for this class
            raise NotUnderstood(("/file", _DAMAGED)) from None
        raise


def _as_text(cell: object) -> str:
    """A value as a person would see it.

    >>> _as_text(2.0), _as_text(39.5), _as_text(datetime.date(2027, 3, 1)), _as_text(True)
    ('2', '39.5', '2027-03-01', 'yes')
    """
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return str(int(cell)) if cell.is_integer() and abs(cell) < 1e15 else repr(round(cell, 6))
    if isinstance(cell, datetime.datetime):
        return cell.date().isoformat() if cell.time() == datetime.time() else cell.isoformat(" ")
    return cell.isoformat() if isinstance(cell, datetime.date | datetime.time) else str(cell)
