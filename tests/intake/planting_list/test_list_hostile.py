"""Files made to do harm, or broken on the way: refused in a sentence, or read as far as they can be."""

from __future__ import annotations

import io
import struct
import zipfile
from email.message import EmailMessage

import pytest

from service.domain.errors import NotUnderstood, TooLarge
from service.intake.planting_list import ListLimits, ListReader, Upload
from tests.lists.golden import HERE

PLAIN = (HERE / "45-plain.xlsx").read_bytes()
ODS = (HERE / "47-lista.ods").read_bytes()
SHEET = "xl/worksheets/sheet1.xml"


def changed(book: bytes, **parts: bytes) -> bytes:
    """The workbook with parts replaced or added; a dot in a part's name is written as two underscores."""
    new = {name.replace("___", "/").replace("__", "."): content for name, content in parts.items()}
    file = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for info in old.infolist():
            if info.filename not in new:
                packed.writestr(info.filename, old.read(info))
        for name, content in new.items():
            packed.writestr(name, content)
    return file.getvalue()


def sheet(rows: str) -> bytes:
    """A workbook whose sheet holds these rows, written as XML."""
    head = '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>'
    return changed(PLAIN, xl___worksheets___sheet1__xml=f"{head}{rows}</sheetData></worksheet>".encode())


def refusal(reader: ListReader, content: bytes, name: str = "list.xlsx") -> NotUnderstood:
    with pytest.raises(NotUnderstood) as refused:
        reader.read(Upload(content, name))
    assert refused.value.faults[0][0] == "/file"
    return refused.value


def test_a_workbook_that_unpacks_to_gigabytes_is_refused(reader: ListReader) -> None:
    bomb = changed(PLAIN, xl___worksheets___sheet1__xml=b" " * (65 * 1024 * 1024))
    assert len(bomb) < 100_000
    assert isinstance(refusal(reader, bomb), TooLarge)


def test_a_part_that_lies_about_its_size_is_refused(reader: ListReader) -> None:
    bomb = bytearray(changed(PLAIN, xl___worksheets___sheet1__xml=b" " * (80 * 1024 * 1024)))
    at = bomb.index(b"PK\x01\x02")
    while bomb[at + 46 : at + 46 + len(SHEET)] != SHEET.encode():
        at = bomb.index(b"PK\x01\x02", at + 4)
    bomb[at + 24 : at + 28] = struct.pack("<I", 1000)
    refusal(reader, bytes(bomb))


@pytest.mark.parametrize(
    "rows",
    [
        '<row r="10000000"><c r="A10000000" t="inlineStr"><is><t>Liberty</t></is></c></row>',
        '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>',
        '<row r="1"><c r="a1"><v>1</v></c></row><row r="1000001"><c r="a1000001"><v>1</v></c></row>',
        '<row r="+10000000"><c><v>1</v></c></row>',
        "<row>" + "<c/>" * 1_000_001 + "</row>",
    ],
    ids=["ten million rows", "a stray cell at the end", "small letters", "a sign", "a million columns"],
)
def test_a_sheet_that_reaches_too_far_is_refused(reader: ListReader, rows: str) -> None:
    assert isinstance(refusal(reader, sheet(rows)), TooLarge)


@pytest.mark.parametrize("times", ["10000000", "999999999"])
def test_a_row_repeated_ten_million_times_is_refused(reader: ListReader, times: str) -> None:
    with zipfile.ZipFile(io.BytesIO(ODS)) as packed:
        content = packed.read("content.xml").replace(b'repeated="1"', f'repeated="{times}"'.encode())
    assert isinstance(refusal(reader, changed(ODS, content__xml=content)), TooLarge)


def test_a_long_text_that_many_cells_share_is_refused(reader: ListReader) -> None:
    text = b"<sst><si><t>" + b"x" * 100_000 + b"</t></si></sst>"
    cells = b'<worksheet><sheetData><row>' + b'<c t="s"><v>0</v></c>' * 1_000 + b"</row></sheetData></worksheet>"
    book = changed(PLAIN, xl___sharedStrings__xml=text, xl___worksheets___sheet1__xml=cells)
    assert isinstance(refusal(reader, book), TooLarge)


def test_a_long_text_that_is_repeated_is_refused(reader: ListReader) -> None:
    with zipfile.ZipFile(io.BytesIO(ODS)) as packed:
        content = packed.read("content.xml").replace(b'repeated="1"', b'repeated="10000"')
    book = changed(ODS, content__xml=content.replace(b"Redhaven", b"x" * 10_000))
    assert isinstance(refusal(reader, book), TooLarge)


def test_a_sheet_under_another_name_is_looked_at_as_well(reader: ListReader) -> None:
    far = b'<worksheet><sheetData><row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData></worksheet>'
    assert isinstance(refusal(reader, changed(PLAIN, xl___styles__xml=far)), TooLarge)


def test_sheets_of_one_workbook_are_counted_together_where_they_are_read_together(reader: ListReader) -> None:
    with zipfile.ZipFile(io.BytesIO(ODS)) as packed:
        content = packed.read("content.xml").replace(b'repeated="1"', b'repeated="150000"')
    start, end = content.index(b"<table:table "), content.index(b"</office:spreadsheet>")
    table = content[start:end]
    three = table + table.replace(b"Lista", b"L2") + table.replace(b"Lista", b"L3")
    refusal(reader, changed(ODS, content__xml=content[:start] + three + content[end:]))


def test_entities_are_refused(reader: ListReader) -> None:
    laughs = b'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]><worksheet><sheetData/></worksheet>'
    assert "entities" in str(refusal(reader, changed(PLAIN, xl___worksheets___sheet1__xml=laughs)))
    assert "entities" in str(refusal(reader, changed(PLAIN, xl___sharedStrings__xml=laughs)))


def test_macros_are_refused(reader: ListReader) -> None:
    assert "macros" in str(refusal(reader, changed(PLAIN, xl___vbaProject__bin=b"x"), "list.xlsm"))
    types = b'<Types><Override PartName="/xl/workbook.xml" ContentType="x.macroEnabled.main+xml"/></Types>'
    assert "macros" in str(refusal(reader, changed(PLAIN, **{"[Content_Types]__xml": types})))
    assert "macros" in str(refusal(reader, changed(ODS, Basic___script__xml=b"x"), "list.ods"))


@pytest.mark.parametrize(
    ("head", "said"),
    [
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "password"), (b"%PDF-1.7", "PDF"), (b"\x89PNG\r\n", "picture"),
        (b"\x1f\x8b\x08", "packed"), (b"{\\rtf1", "rich text"), (b"\x7fELF\x02", "program"), (b"MZ\x90\0", "program"),
        (b"\0\1\2\3" * 100, "not text"), (b"PK\x03\x04 and no more", "damaged"),
    ],
)  # fmt: skip
def test_what_is_no_list_is_named_whatever_its_ending(reader: ListReader, head: bytes, said: str) -> None:
    assert said in str(refusal(reader, head, "list.csv"))


def test_a_packed_file_of_other_things_is_refused(reader: ListReader) -> None:
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as packed:
        packed.writestr("list.csv", "2,Liberty")
    assert "no workbook" in str(refusal(reader, file.getvalue()))


def test_a_workbook_with_thousands_of_parts_is_refused(reader: ListReader) -> None:
    parts = {f"xl___worksheets___s{number}__xml": b"<x/>" for number in range(2_001)}
    assert "parts" in str(refusal(reader, changed(PLAIN, **parts)))


def test_a_part_that_stands_twice_is_refused(reader: ListReader) -> None:
    file = io.BytesIO(PLAIN)
    with pytest.warns(UserWarning, match="Duplicate"), zipfile.ZipFile(file, "a") as packed:
        packed.writestr(SHEET, "<worksheet/>")
    assert "twice" in str(refusal(reader, file.getvalue()))


def test_a_cell_as_long_as_a_book_is_cut_and_marked(reader: ListReader) -> None:
    limit = reader.limits.cell_characters
    line = reader.read(Upload(b"Variety,Notes\nLiberty," + b"x" * 30_000 + b"\nBing,\n", "l.csv")).lines[0]
    assert line.names[0].cultivar == "apple.liberty"
    assert "cut_short" in line.marks
    assert max(len(cell.text) for cell in line.row.cells) == limit


def test_a_line_without_an_end_is_cut(reader: ListReader) -> None:
    read = reader.read(Upload(b"Qty,Variety\n2,Liberty" + b"y" * 5_000_000 + b"\n1,Bing\n", "l.csv"))
    assert [line.quantity for line in read.lines] == [2, 1]
    assert read.lines[1].names[0].cultivar == "sweet_cherry.bing"


def test_an_open_quote_costs_no_more_than_its_own_row(reader: ListReader) -> None:
    rows = "".join(f"Liberty,{number}\n" for number in range(1, 100))
    read = reader.read(Upload(f'Variety,Qty\n"Enterprise,1\n{rows}'.encode(), "l.csv"))
    assert len(read.lines) == 100
    assert sum(line.trees for line in read.lines) == 1 + sum(range(1, 100))


def test_more_columns_than_a_list_has_are_left_out(reader: ListReader) -> None:
    wide = "Variety," + ",".join(f"c{number}" for number in range(5_000)) + "\nLiberty" + ",x" * 5_000 + "\n"
    line = reader.read(Upload(wide.encode(), "l.csv")).lines[0]
    assert len(line.row.cells) == reader.limits.columns


def nested(depth: int) -> bytes:
    """A mail in a mail in a mail."""
    message = EmailMessage()
    message["From"], message["Subject"] = "a@example.org", "trees"
    message.set_content("9 Bing\n")
    for _ in range(depth):
        outer = EmailMessage()
        outer["From"], outer["Subject"] = "a@example.org", "Fwd"
        outer.set_content("1 Liberty\n")
        outer.add_attachment(message)
        message = outer
    return message.as_bytes()


def test_mails_inside_mails_are_read_to_a_depth_and_no_deeper(reader: ListReader) -> None:
    read = reader.read(Upload(nested(12), "mail.eml"))
    assert {line.names[0].cultivar for line in read.lines} == {"apple.liberty"}
    assert any("deep" in sentence for sentence in read.limits_hit)


def test_a_mail_of_hundreds_of_parts_is_read_to_a_number(reader: ListReader) -> None:
    message = EmailMessage()
    message["From"], message["Subject"] = "a@example.org", "trees"
    message.set_content("1 Liberty\n")
    for number in range(200):
        message.add_attachment("Variety,Qty\nBing,1\n", subtype="csv", filename=f"{number}.csv")
    read = reader.read(Upload(message.as_bytes(), "mail.eml"))
    assert 0 < len(read.lines) <= reader.limits.mail_parts
    assert any("parts" in sentence for sentence in read.limits_hit)


def test_a_bad_attachment_does_not_cost_the_rest_of_the_mail(reader: ListReader) -> None:
    message = EmailMessage()
    message["From"], message["Subject"] = "a@example.org", "trees"
    message.set_content("1 Liberty\n")
    bomb = changed(PLAIN, xl___worksheets___sheet1__xml=b" " * (65 * 1024 * 1024))
    message.add_attachment(bomb, maintype="application", subtype="zip", filename="list.xlsx")
    read = reader.read(Upload(message.as_bytes(), "mail.eml"))
    assert [line.names[0].cultivar for line in read.lines] == ["apple.liberty"]
    assert any("list.xlsx" in sentence for sentence in read.limits_hit)


@pytest.mark.parametrize(
    ("limits", "content"),
    [
        (ListLimits(bytes=20), b"Variety,Qty\nLiberty,2\n"),
        (ListLimits(rows=3), b"Variety,Qty\n" + b"Liberty,2\n" * 3),
        (ListLimits(lines_at_once=2), b"Variety,Qty\n" + b"Liberty,2\n" * 3),
        (ListLimits(packed_bytes=100), PLAIN),
        (ListLimits(workbook_cells=5), PLAIN),
        (ListLimits(mail_bytes=30), b"From: a@example.org\nSubject: x\n\n2 Liberty\n"),
    ],
    ids=["bytes", "rows", "lines", "packed bytes", "cells", "mail"],
)
def test_each_limit_is_told_when_it_is_passed(reader: ListReader, limits: ListLimits, content: bytes) -> None:
    with pytest.raises(TooLarge, match=r"/file: (the|a sheet) "):
        reader.with_limits(limits).read(Upload(content, "list"))


def test_a_text_and_rows_have_their_limits_too(reader: ListReader) -> None:
    strict = reader.with_limits(ListLimits(body_characters=10, rows=1))
    with pytest.raises(TooLarge, match="/text"):
        strict.read_text("2 Liberty, 3 Enterprise")
    with pytest.raises(TooLarge, match="/rows"):
        strict.read_rows([["Liberty"], ["Bing"]])


def test_a_formula_is_never_worked_out(reader: ListReader) -> None:
    read = reader.read(Upload(b'Qty,Variety\n=1+1,Liberty\n1,"=HYPERLINK(""http://example.org"",""Bing"")"\n', "l.csv"))
    assert read.lines[0].quantity is None
    assert read.lines[1].names == ()
    assert all("formula" in line.marks for line in read.lines)
