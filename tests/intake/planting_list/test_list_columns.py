"""Columns: any separator, encoding and order of headings, or no headings at all."""

from __future__ import annotations

from decimal import Decimal
from itertools import permutations

import pytest

from service.domain.planting_list import ReadLine
from service.intake.planting_list import ListReader, Upload

CELLS = {"Qty": "2", "Variety": "Liberty", "Root stock": "M.9", "Size": "5 gal"}


def only(reader: ListReader, content: str | bytes) -> ReadLine:
    data = content.encode() if isinstance(content, str) else content
    (line,) = reader.read(Upload(data, "list.csv")).lines
    return line


def is_as_written(line: ReadLine) -> bool:
    assert line.rootstock is not None
    assert line.size is not None
    told = (line.quantity, line.names[0].cultivar, line.rootstock.rootstock, line.size.container)
    return told == (2, "apple.liberty", "m_9", 5.0)


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
@pytest.mark.parametrize("order", list(permutations(CELLS))[::3], ids=" ".join)
def test_columns_stand_in_any_order(reader: ListReader, order: tuple[str, ...], separator: str) -> None:
    rows = [separator.join(order), separator.join(CELLS[heading] for heading in order)]
    assert is_as_written(only(reader, "\n".join(rows)))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252", "mac_roman", "cp850"])
def test_letters_are_read_in_their_encoding(reader: ListReader, encoding: str) -> None:
    rows = "Variedad;Cantidad;Notas\nMelocotón Redhaven;2;año próximo, señor\nNíspero Tanaka;1;mañana\n"
    read = reader.read(Upload(rows.encode(encoding), "l.csv"))
    assert [line.names[0].cultivar for line in read.lines] == ["peach.redhaven", "loquat.tanaka"]
    assert read.lines[0].note == "año próximo, señor"


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_lines_end_as_they_like(reader: ListReader, ending: str) -> None:
    assert is_as_written(only(reader, ending.join([",".join(CELLS), ",".join(CELLS.values())])))


@pytest.mark.parametrize(
    ("written", "amount", "currency"),
    [("39.50", "39.50", None), ("39,50", "39.50", None), ("$39.50", "39.50", "USD"), ("1.234,50 €", "1234.50", "EUR"),
     ("1,234.50", "1234.50", None), ("39", "39", None)],
)  # fmt: skip
def test_prices_have_points_or_commas(reader: ListReader, written: str, amount: str, currency: str | None) -> None:
    price = only(reader, f"Variety;Price\nLiberty;{written}\n").price
    assert price is not None
    assert (price.amount, price.currency, price.each) == (Decimal(amount), currency, True)


def test_what_was_written_is_kept_beside_what_was_read(reader: ListReader) -> None:
    line = only(reader, "Qty,Variety,Colour\n2x,  Honneycrisp ,red\n")
    assert [(cell.heading, cell.text) for cell in line.row.cells] == [
        ("Qty", "2x"), ("Variety", "Honneycrisp"), ("Colour", "red"),
    ]  # fmt: skip
    assert (line.written, line.row.number) == ("2x | Honneycrisp | red", 2)


def test_rows_of_cells_are_read_like_a_file(reader: ListReader) -> None:
    (line,) = reader.read_rows([list(CELLS), list(CELLS.values())]).lines
    assert is_as_written(line)


def test_rows_without_headings_are_read_by_what_stands_in_them(reader: ListReader) -> None:
    rows = [["1", "Liberty", "apple", "M.9", "39.50"], ["3", "Gala", "peach", "Lovell", "29"]]
    lines = reader.read_rows(rows).lines
    assert [line.names[0].cultivar for line in lines] == ["apple.liberty", "peach.gala"]
    assert [(line.quantity, line.price and line.price.amount) for line in lines] == [(1, Decimal("39.50")), (3, 29)]


def test_a_number_in_two_places_is_told(reader: ListReader) -> None:
    line = only(reader, "Qty,Variety\n2,Liberty x3\n")
    assert (line.quantity, line.marks) == (2, ("quantity_in_two_places",))


@pytest.mark.parametrize("written", ["2-3", "many", "2.5", "999999999"])
def test_a_number_that_cannot_be_read_is_told_and_not_guessed(reader: ListReader, written: str) -> None:
    line = only(reader, f"Qty,Variety\n{written},Liberty\n")
    assert (line.quantity, line.marks) == (None, ("quantity_not_read",))
