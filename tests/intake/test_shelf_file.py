"""A shelf in a table: what is written comes back, and a fault names its row and column."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import date
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.api.shelf_reading import records_in_json, records_in_table
from service.domain.errors import NotUnderstood, TooLarge
from service.domain.label import LabelRecord
from service.domain.plain_label import plain_record, read_record
from service.intake.label_names import LabelNames
from service.intake.shelf_cells import read_cell, write_cell
from service.intake.shelf_columns import column, fields
from service.intake.shelf_file import MOST_BYTES, rows_of_csv, rows_of_workbook, shelf_csv
from service.knowledge.names import NameBook
from service.reasoning.rulebook import Rulebook
from tests.made_up_labels import label


@pytest.fixture(scope="module")
def names(rulebook: Rulebook) -> LabelNames:
    """Names of the project's catalogue."""
    return LabelNames(NameBook(rulebook.catalogue), rulebook.catalogue)


def table(*rows: Sequence[str]) -> bytes:
    out = io.StringIO()
    csv.writer(out).writerows(rows)
    return out.getvalue().encode()


def read(body: bytes, names: LabelNames) -> list[LabelRecord]:
    return [one.record for one in records_in_table(rows_of_csv(body), names)]


def faults(body: bytes, names: LabelNames) -> dict[str, str]:
    with pytest.raises(NotUnderstood) as caught:
        read(body, names)
    return dict(caught.value.faults)


def test_what_is_written_comes_back_and_is_the_same(names: LabelNames) -> None:
    records = [
        read_record(label(id="P-1", ppe=[], states_registered=None)).record,
        read_record(label(id="P-2", product_name="=SUM(1|2), 'quoted' \"so\"", phytotoxicity=[
            {"crop": "any", "text": "@home\nnot on dry plants"}, {"crop": "apple", "text": "a | b"}])).record,
        read_record({"id": "P-3"}).record,
    ]  # fmt: skip
    written = shelf_csv([plain_record(one) for one in records])
    assert read(written.encode(), names) == records


def test_nothing_in_the_file_runs_as_a_formula() -> None:
    record = read_record(label(id="P-1", product_name="=1+1", registrant="+x", net_contents="@x")).record
    cells = [cell for row in csv.reader(io.StringIO(shelf_csv([plain_record(record)]))) for cell in row]
    assert "'=1+1" in cells
    assert [cell for cell in cells if cell.startswith(("=", "+", "@", "\t"))] == []


@given(st.text(max_size=60), st.lists(st.text(min_size=1, max_size=20), max_size=4))
def test_any_text_and_any_list_come_back_from_their_cells(text: str, words: list[str]) -> None:
    name, ppe = column("product_name"), column("ppe")
    assert name is not None
    assert ppe is not None
    kept = [word.strip() for word in words if word.strip() and "\\" not in word]
    assert (read_cell(write_cell(text.strip() or None, name), name) or "") == text.strip()
    assert read_cell(write_cell(kept, ppe), ppe) == kept


def test_every_field_of_a_record_has_a_column() -> None:
    record = plain_record(read_record(label(id="P-1", exempt_25b={"actives": [{"display_name": "x"}]},
                                            phytotoxicity=[{"crop": "any", "text": "x"}])).record)  # fmt: skip
    missing = [path for path in paths(record) if path not in fields()]
    assert missing == []


def paths(value: Any, path: tuple[str, ...] = ()) -> list[str]:
    if isinstance(value, dict):
        return [one for name, inner in value.items() for one in paths(inner, (*path, name))]
    if isinstance(value, list) and value and isinstance(value[0], dict):
        return paths(value[0], path)
    return [".".join(path)]


def test_a_workbook_reads_as_the_csv_does(names: LabelNames) -> None:
    sheet_rows: list[list[Any]] = [
        ["id", "product_name", "restricted_use", "label_version_date", "sites.crop_as_printed", "sites.crops",
         "sites.phi_days"],
        ["P-1", "Invented", False, date(2026, 1, 15), "apple", "apple", 14],
        ["P-1", None, None, None, "peach", "peach", 7],
    ]  # fmt: skip
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in sheet_rows:
        book.active.append(row)
    out = io.BytesIO()
    book.save(out)
    record = records_in_table(rows_of_workbook(out.getvalue()), names)[0].record
    assert (record.restricted_use, record.label_version_date) == (False, date(2026, 1, 15))
    assert [site.phi_days for site in record.sites] == [14, 7]


def test_every_fault_is_told_with_its_row_and_column(names: LabelNames) -> None:
    found = faults(
        table(
            ["id", "product_name", "signal_word", "restricted_use", "sites.crop_as_printed", "sites.crops",
             "sites.pests"],
            ["P-1", "One", "DANGEROUS", "", "apple", "appel", ""],
            ["P-1", "Another", "", "", "peach", "peach", "brown_rott"],
            ["P-2", "Two", "", "maybe", "cherry", "cherry", ""],
            ["", "Three", "", "", "", "", ""],
        ),
        names,
    )  # fmt: skip
    assert set(found) == {"/2/signal_word", "/2/sites.crops", "/3/product_name", "/3/sites.pests",
                          "/4/restricted_use", "/4/sites.crops", "/5/id"}  # fmt: skip
    assert found["/2/sites.crops"].startswith("Row 2, column sites.crops: no crop is called “appel”")
    assert "did you mean “brown_rot”" in found["/3/sites.pests"]
    assert "another value than in row 2" in found["/3/product_name"]
    assert "Sweet, tart or both?" in found["/4/sites.crops"]


def test_a_column_that_is_not_known_is_told_with_the_nearest(names: LabelNames) -> None:
    found = faults(table(["id", "product_nam", "id"], ["P-1", "x", "P-1"]), names)
    assert "did you mean “product_name”" in found["/1/product_nam"]
    assert "stands twice" in found["/1/id"]


@pytest.mark.parametrize("body", [b"", b"\n\n", b"hello", b"product_name\nx\n", b"\x00\x01\x02"])
def test_what_is_no_table_of_products_is_refused_as_a_whole(body: bytes, names: LabelNames) -> None:
    assert set(faults(body, names)) == {""}


def test_a_table_without_products_is_told(names: LabelNames) -> None:
    assert "holds no product" in faults(b"id,product_name\n", names)[""]


def test_a_product_may_repeat_what_belongs_to_it_or_leave_it_out(names: LabelNames) -> None:
    head = ["id", "product_name", "sites.crop_as_printed"]
    rows = (["P-1", "One", "apple"], ["P-1", "", "peach"], ["P-1", "One", "plum"])
    (record,) = read(table(head, *rows), names)
    assert [site.crop_as_printed for site in record.sites] == ["apple", "peach", "plum"]


def test_semicolons_tabs_and_a_byte_order_mark_are_read(names: LabelNames) -> None:
    for separator in (";", "\t"):
        body = "\ufeff" + separator.join(["id", "product_name"]) + "\n" + separator.join(["P-1", "Süß"]) + "\n"
        assert read(body.encode(), names)[0].product_name == "Süß"


def test_entries_of_a_list_are_numbered_and_a_gap_is_told(names: LabelNames) -> None:
    head = ["id", "active_ingredients.1.iso_name", "active_ingredients.2.iso_name"]
    (record,) = read(table(head, ["P-1", "captan", "malathion"]), names)
    assert record.actives == ("captan", "malathion")
    found = faults(table(head, ["P-1", "", "malathion"]), names)
    assert set(found) == {"/2/active_ingredients.1.iso_name"}


def test_too_large_a_file_is_refused_before_it_is_read(names: LabelNames) -> None:
    with pytest.raises(TooLarge):
        read(b"x" * (MOST_BYTES + 1), names)


def test_the_same_in_json_needs_an_id_for_each(names: LabelNames) -> None:
    with pytest.raises(NotUnderstood) as caught:
        records_in_json([{"id": "P-1"}, {"id": "P-1"}, {}], names)
    assert [pointer for pointer, _ in caught.value.faults] == ["/products/1/id", "/products/2/id"]
