"""What reading adds to the memory of a process stays below the stated limit, whatever is sent.

Each file is read in a process of its own; the peak is what the system counts for it, in bytes.
"""

from __future__ import annotations

import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

from service.intake.planting_list import ListLimits
from service.settings import CHECKOUT
from tests.lists.golden import HERE

MEASURE = """
import resource, sys
from pathlib import Path
from service.domain.errors import NotUnderstood
from service.intake.planting_list import ListReader, Upload
from service.knowledge.catalogue import read_catalogue

def peak():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024

reader = ListReader(read_catalogue(Path("rules")))
reader.read_text("2 Liberty on M.9")
before, lines = peak(), 0
try:
    with open(sys.argv[1], "rb") as file:
        for one in reader.stream(Upload(file, "list")):
            lines += 1
except NotUnderstood as refused:
    lines = -1
print(peak() - before, lines)
"""


def measured(path: Path) -> tuple[int, int]:
    """What reading a file added to the peak, in bytes, and how many rows were read (-1: refused)."""
    ran = subprocess.run(
        [sys.executable, "-c", MEASURE, str(path)], cwd=CHECKOUT, capture_output=True, text=True, check=True
    )
    added, lines = ran.stdout.split()
    return int(added), int(lines)


def columns(rows: int) -> Iterator[str]:
    """A long list, with a name that no other row has in every tenth."""
    yield "Qty,Variety,Rootstock,Price,Note\n"
    for number in range(rows):
        name = f"Unknown {number:x}" if number % 10 == 0 else ("Liberty", "Honneycrisp", "Gala apple")[number % 3]
        yield f"{number % 9 + 1},{name},M.9,{number % 50}.50,row {number}\n"


def with_part(path: Path, part: str, blocks: Iterator[bytes], *, book: str = "45-plain.xlsx") -> Path:
    """A workbook with one part replaced, written block by block."""
    with zipfile.ZipFile(HERE / book) as old, zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name in old.namelist():
            if name != part:
                packed.writestr(name, old.read(name))
        with packed.open(part, "w", force_zip64=True) as target:
            for block in blocks:
                target.write(block)
    return path


def sheet(rows: Iterator[bytes]) -> Iterator[bytes]:
    """The XML of a sheet."""
    yield b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">'
    yield b'<dimension ref="A1:XFD1048576"/><sheetData>'
    yield from rows
    yield b"</sheetData></worksheet>"


def test_a_long_list_takes_no_more_memory_than_a_short_one(tmp_path: Path) -> None:
    short, long = tmp_path / "short.csv", tmp_path / "long.csv"
    for path, rows in ((short, 10_000), (long, 60_000)):
        with path.open("w", encoding="utf-8") as file:
            file.writelines(columns(rows))
    few, few_lines = measured(short)
    many, many_lines = measured(long)
    assert (few_lines, many_lines) == (10_001, 60_001)
    assert many <= few + 64 * 1024 * 1024
    assert many <= ListLimits().memory_bytes


def test_as_many_cells_as_are_allowed_stay_below_the_limit(tmp_path: Path) -> None:
    cells = b'<c t="inlineStr"><is><t>Liberty</t></is></c>' * 10
    rows = (b"<row>" + cells + b"</row>" for _ in range(100_000))
    path = with_part(tmp_path / "full.xlsx", "xl/worksheets/sheet1.xml", sheet(rows))
    added, lines = measured(path)
    assert lines == 100_000
    assert added <= ListLimits().memory_bytes


def test_a_workbook_that_unpacks_to_a_gigabyte_stays_below_the_limit(tmp_path: Path) -> None:
    blocks = (b" " * (1 << 20) for _ in range(1 << 10))
    path = with_part(tmp_path / "bomb.xlsx", "xl/worksheets/sheet1.xml", sheet(blocks))
    added, lines = measured(path)
    assert lines == -1
    assert added <= ListLimits().memory_bytes


def test_a_line_without_an_end_stays_below_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "endless.csv"
    with path.open("w", encoding="utf-8") as file:
        for _ in range(100):
            file.write("\u00e9,\"" * 170_000)
    added, _ = measured(path)
    assert added <= ListLimits().memory_bytes


def test_a_wide_list_of_long_cells_stays_below_the_limit(tmp_path: Path) -> None:
    path = tmp_path / "wide.csv"
    with path.open("w", encoding="utf-8") as file:
        for number in range(400):
            file.write(",".join(f"{number} word{at} " * 60 for at in range(60)) + "\n")
    added, _ = measured(path)
    assert added <= ListLimits().memory_bytes
