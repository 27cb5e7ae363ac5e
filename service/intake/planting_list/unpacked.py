"""A workbook unpacked with care, before any reader of workbooks sees it.

What a packed file says of its own size is not believed: every part that matters is unpacked here against a limit, and
written into a plain new archive. A workbook with macros is refused; pictures, links and the rest stay behind.
"""

from __future__ import annotations

import io
import re
import zipfile
import zlib
from typing import IO, BinaryIO, Literal

from service.domain.errors import NotUnderstood, TooLarge
from service.intake.planting_list.limits import ListLimits, amount

BookKind = Literal["xlsx", "ods"]
_BLOCK = 1 << 16
_XLSX_PARTS = re.compile(
    r"(?:\[Content_Types\]\.xml|_rels/\.rels|xl/(?:_rels/)?workbook\.xml(?:\.rels)?|xl/sharedStrings\.xml|xl/styles\.xml|"
    r"xl/worksheets/[\w .-]{1,80}\.xml)"
)
_ODS_PARTS = re.compile(r"mimetype|content\.xml|META-INF/manifest\.xml")
_ODS_TYPES = (b"application/vnd.oasis.opendocument.spreadsheet",)


def unpacked(file: BinaryIO, limits: ListLimits) -> tuple[BookKind, io.BytesIO]:
    """The kind of a workbook and a clean copy of the parts that hold its cells."""
    try:
        with zipfile.ZipFile(file) as packed:
            kind = _kind(packed, limits)
            return kind, _copied(packed, _XLSX_PARTS if kind == "xlsx" else _ODS_PARTS, limits)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, NotImplementedError, ValueError):
        raise NotUnderstood(("/file", "the workbook is damaged or has a password; save it anew as .xlsx")) from None


def _kind(packed: zipfile.ZipFile, limits: ListLimits) -> BookKind:
    names = {info.filename for info in packed.infolist()}
    if len(packed.infolist()) > limits.workbook_parts:
        raise TooLarge(("/file", f"the workbook has more than {limits.workbook_parts} parts"))
    if len(names) < len(packed.infolist()):
        raise NotUnderstood(("/file", "the workbook holds a part twice; save it anew as .xlsx"))
    if "xl/vbaProject.bin" in names or any(name.startswith(("Basic/", "Scripts/")) for name in names):
        raise NotUnderstood(("/file", "the workbook holds macros; save it as .xlsx without them"))
    if "xl/workbook.xml" in names:
        return "xlsx"
    if "xl/workbook.bin" in names:
        raise NotUnderstood(("/file", "this is a binary workbook (.xlsb); save it as .xlsx"))
    if "content.xml" in names and "mimetype" in names and packed.open("mimetype").read(200).strip() in _ODS_TYPES:
        return "ods"
    raise NotUnderstood(("/file", "this is a packed file and no workbook; send the list itself"))


def _copied(packed: zipfile.ZipFile, wanted: re.Pattern[str], limits: ListLimits) -> io.BytesIO:
    file, total = io.BytesIO(), 0
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as clean:
        for info in packed.infolist():
            if wanted.fullmatch(info.filename):
                if info.file_size > limits.unpacked_bytes:
                    raise _too_large(limits)
                with packed.open(info) as part, clean.open(info.filename, "w") as copy:
                    total = _copy(part, copy, (total, limits))
    return file


def _copy(part: IO[bytes], copy: IO[bytes], so_far: tuple[int, ListLimits]) -> int:
    total, limits = so_far
    first = True
    while block := part.read(_BLOCK):
        total += len(block)
        if total > limits.unpacked_bytes:
            raise _too_large(limits)
        if first and b"macroEnabled" in block:
            raise NotUnderstood(("/file", "the workbook is made for macros; save it as .xlsx without them"))
        first = False
        copy.write(block)
    return total


def _too_large(limits: ListLimits) -> TooLarge:
    return TooLarge(("/file", f"the workbook is larger than {amount(limits.unpacked_bytes)} when it is unpacked; send"
                              " fewer rows, or send them as .csv"))  # fmt: skip
