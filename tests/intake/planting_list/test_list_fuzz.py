"""Whatever is sent, a list is read or refused in a sentence; nothing else ever happens, and no row is lost."""

from __future__ import annotations

import io
import zipfile

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from service.domain.errors import NotUnderstood
from service.domain.planting_list import MARKS, ReadList
from service.intake.planting_list import ListReader, Upload
from tests.lists.golden import HERE, lists

FILES = [path.read_bytes() for path in lists()]
BOOKS = [HERE / name for name in ("45-plain.xlsx", "47-lista.ods", "48-several-sheets.xlsx")]
MANY = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
WORDS = st.sampled_from(
    (*("Liberty", "Gala", "M.9", "on", "2", "x", "3-in-1", "/", ",", ";", "\t", "\n", "apple", "peras", "$39", "39,50"),
     *("(", ")", '"', "''", "5 gal", '24" box', "or", "and", "=", "=1+1", ":", "-", "#", "dozen", "half", "1,000"),
     *("9999999999", "€", "®", "0", "\x00", "\u202e", "Qty", "Variety", "Total", "From: a", "> ", "--"),
     *("On x wrote:", "<table>", "½", "٣", "²", "ﬁ", "é", "🍎", "1/0", "0/0", "caliper", "sep=;"))
)  # fmt: skip


def read(reader: ListReader, content: bytes) -> ReadList | None:
    try:
        return reader.read(Upload(content, "list"))
    except NotUnderstood as refused:
        explains(refused)
        return None


def explains(refused: NotUnderstood) -> None:
    assert all(pointer.startswith("/") and detail for pointer, detail in refused.faults)


def holds_together(found: ReadList) -> None:
    assert [line.line for line in found.lines] == list(range(1, len(found.lines) + 1))
    for line in found.lines:
        assert set(line.marks) <= set(MARKS)
        assert line.trees >= 0
        assert line.written == line.row.text
        assert all(name.written for name in line.names)


@MANY
@given(content=st.binary(max_size=400))
def test_any_bytes_are_read_or_refused(reader: ListReader, content: bytes) -> None:
    if found := read(reader, content):
        holds_together(found)


@MANY
@given(words=st.lists(WORDS, max_size=60))
@example(words=["٣", "Liberty"])
@example(words=["²", "Liberty"])
def test_any_jumble_of_list_words_is_read_or_refused(reader: ListReader, words: list[str]) -> None:
    for glue in (" ", "", ","):
        if found := read(reader, glue.join(words).encode("utf-8", "surrogatepass")):
            holds_together(found)


@MANY
@given(rows=st.lists(st.lists(st.text(max_size=30), max_size=6), max_size=12))
def test_no_row_of_cells_is_lost(reader: ListReader, rows: list[list[str]]) -> None:
    found = reader.read_rows(rows)
    holds_together(found)
    told = {line.row.number for line in found.lines} | {skipped.row.number for skipped in found.skipped}
    assert told == {number for number, cells in enumerate(rows, 1) if any(cell.strip() for cell in cells)}


@MANY
@given(text=st.text(max_size=300))
def test_any_text_is_read_or_refused(reader: ListReader, text: str) -> None:
    try:
        holds_together(reader.read_text(text))
    except NotUnderstood as refused:
        explains(refused)


@MANY
@given(data=st.data())
def test_a_damaged_list_is_read_or_refused(reader: ListReader, data: st.DataObject) -> None:
    content = bytearray(data.draw(st.sampled_from(FILES)))
    for _ in range(data.draw(st.integers(1, 8))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    if found := read(reader, bytes(content[: data.draw(st.integers(1, len(content)))])):
        holds_together(found)


@MANY
@given(data=st.data())
def test_a_workbook_with_damaged_insides_is_read_or_refused(reader: ListReader, data: st.DataObject) -> None:
    """The damage stands inside of the packed parts, where no checksum catches it."""
    with zipfile.ZipFile(data.draw(st.sampled_from(BOOKS))) as old:
        parts = {name: bytearray(old.read(name)) for name in old.namelist()}
    name = data.draw(st.sampled_from(sorted(name for name in parts if parts[name])))
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(parts[name]) - 1))
        parts[name][at : at + data.draw(st.integers(1, 3))] = data.draw(st.binary(max_size=6))
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        for part, content in parts.items():
            packed.writestr(part, bytes(content))
    if found := read(reader, file.getvalue()):
        holds_together(found)
