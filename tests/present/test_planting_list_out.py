"""What goes out of a checked list: read back, it says what the answer says, and nothing that was written runs."""

from __future__ import annotations

import io
import json
import tracemalloc
import zipfile
from collections.abc import Iterator, Mapping
from datetime import date
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from typing import Any
from xml.etree import ElementTree

import openpyxl
import pytest
from openpyxl.workbook import Workbook
from pypdf import PdfReader
from python_calamine import CalamineWorkbook

from service.domain.units import Language
from service.intake.planting_list import Upload
from service.present.planting_list import planting_list_advice
from service.present.planting_list_out import FORMATS, Format, render, with_lines, write
from service.present.planting_list_out.line_report import WEIGHTS
from service.present.planting_list_out.needs_words import SPANISH
from service.present.planting_list_out.report import list_report
from service.present.planting_list_out.sheet import MOST_ROWS
from service.present.planting_list_out.words import SEASONS, SKIPPED, WORDS
from service.questions.planting_list import list_reader
from service.reasoning.rulebook import Rulebook
from tests.questions.list_counter import ListCounter

ON = date(2026, 11, 25)
DANGEROUS = ('=HYPERLINK("http://example.org","x")', "+1+1", "-2+3", "@SUM(A1)", "=cmd|' /C calc'!A0")
ROWS = ["Qty,Variety,Crop,Rootstock,Notes", "2,Honeycrisp,apple,M.9,", "APPLES:", "1,Galla,apple,,by the fence",
        "3,Bartlett,pear,Quince A,", "1,Zzyxqv,,,", "1,Bing,sweet cherry,,"]  # fmt: skip
ROWS += [f'1,Elberta,peach,,"{one.replace(chr(34), chr(34) * 2)}"' for one in DANGEROUS]
LIST = "\n".join(ROWS)
Told = dict[str, Any]


@pytest.fixture(scope="module")
def counter(rulebook: Rulebook) -> ListCounter:
    return ListCounter(rulebook)


def told_of(counter: ListCounter, text: str, language: Language = "en", name: str = "list.csv", **more: Any) -> Told:
    read = list_reader(counter.rulebook).read(Upload(io.BytesIO(text.encode()), name))
    checked = counter.judge(read, existing_trees=(), state="WA", **more)
    return planting_list_advice(checked, rulebook=counter.rulebook, language=language)


@pytest.fixture(scope="module")
def told(counter: ListCounter) -> Told:
    return told_of(counter, LIST)


@pytest.fixture(scope="module")
def spanish(counter: ListCounter) -> Told:
    return told_of(counter, LIST, "es")


def book_of(told: Told) -> Workbook:
    return openpyxl.load_workbook(io.BytesIO(render(told, "xlsx", on=ON)))


def pdf_of(told: Told) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(render(told, "pdf", on=ON))).pages]


def mail_of(told: Told) -> EmailMessage:
    message = message_from_bytes(render(told, "eml", on=ON), policy=default)
    assert isinstance(message, EmailMessage)
    return message


def cells(book: Workbook, sheet: str) -> list[list[Any]]:
    return [list(row) for row in book[sheet].iter_rows(values_only=True)]


def test_the_workbook_holds_the_rows_as_they_were_written_and_where_they_stood(told: Told) -> None:
    theirs = [[cell or "" for cell in row[:5]] for row in cells(book_of(told), "list.csv")]
    written = [line.split(",") for line in ROWS[:7]]
    assert theirs[:7] == [[*row, *[""] * (5 - len(row))] for row in written]
    assert [row[4] for row in theirs[7:]] == list(DANGEROUS)


def test_our_columns_stand_beside_each_row(told: Told) -> None:
    head, *rows = cells(book_of(told), "list.csv")
    ours = [dict(zip(head[5:], row[5:], strict=True)) for row in rows]
    assert ours[0]["Line"] == 1
    assert ours[0]["Read as"] == "2 × Honeycrisp (apple) on M.9"
    assert ours[1]["Line"] == "a heading with the crop"
    assert "Gala (apple) (a guess; ask)" in ours[2]["Read as"]
    verdicts = [one["Verdict"] for one in ours if isinstance(one["Line"], int)]
    assert verdicts == [WORDS[line["verdict"]]["en"] for line in told["answer"]["lines"]]
    for one, line in zip((one for one in ours if isinstance(one["Line"], int)), told["answer"]["lines"], strict=True):
        for finding in line["findings"]:
            assert finding["text"] in one["What to know"] or finding["text"].rstrip(".").lower() == one["Verdict"]


def test_nothing_that_was_written_runs_as_a_formula(told: Told) -> None:
    data = render(told, "xlsx", on=ON)
    sheet = openpyxl.load_workbook(io.BytesIO(data))["list.csv"]
    guarded = [cell for row in sheet.iter_rows() for cell in row if cell.value in DANGEROUS]
    assert len(guarded) == len(DANGEROUS)
    assert {cell.data_type for cell in guarded} == {"s"}
    assert all(cell.quotePrefix for cell in guarded)
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        for name in packed.namelist():
            assert b"<f>" not in packed.read(name)
            assert b"<hyperlink" not in packed.read(name)


def test_the_workbook_reads_as_the_list_that_it_was(counter: ListCounter, told: Told) -> None:
    rows = CalamineWorkbook.from_filelike(io.BytesIO(render(told, "xlsx", on=ON))).get_sheet_by_name("list.csv")
    assert [str(row[1]) for row in rows.to_python()][:2] == ["Variety", "Honeycrisp"]


def test_each_sheet_of_a_workbook_and_each_attachment_is_a_sheet_again(counter: ListCounter) -> None:
    book, out = openpyxl.Workbook(), io.BytesIO()
    book.worksheets[0].title = "Front"
    book.worksheets[0].append(["Variety", "Qty"])
    book.worksheets[0].append(["Liberty apple", 2])
    back = book.create_sheet("Back: yard".replace(":", ""))
    back.append(["Mission fig"])
    book.save(out)
    read = list_reader(counter.rulebook).read(Upload(io.BytesIO(out.getvalue()), "plan.xlsx"))
    told = planting_list_advice(counter.judge(read), rulebook=counter.rulebook)
    assert {"Front", "Back yard"} <= set(book_of(told).sheetnames)
    assert cells(book_of(told), "Back yard")[0][0] == "Written 1"
    assert cells(book_of(told), "Back yard")[1][0] == "Mission fig"


def test_rows_longer_than_the_others_lose_nothing(counter: ListCounter) -> None:
    short = [{"file": None, "sheet": None, "attachment": None}]
    told = told_of(counter, "Liberty apple")
    line = told["answer"]["lines"][0]
    lines = [{**line, "row": number, "line": number, "cells": ["a", "b"]} for number in range(1, 1200)]
    lines.append({**line, "row": 1200, "line": 1200, "cells": ["a", "b", "c", "d"]})
    told["answer"]["read"]["sources"] = [{**told["answer"]["read"]["sources"][0], **short[0]}]
    told["answer"]["lines"] = [{**one, **short[0]} for one in lines]
    assert cells(book_of(told), "List")[-1][:2] == ["a", "b | c | d"]


def test_the_mended_list_marks_each_change(told: Told) -> None:
    _, *rows = cells(book_of(told), "Mended list")
    changes = [(row[0], row[1]) for row in rows]
    words = {"keep": "as listed", "rootstock": "other rootstock", "replace": "other variety", "drop": "left out"}
    repair = told["answer"]["repair"]
    assert changes == [(line["line"], words[line["change"]]) for line in repair["lines"]] + [
        (None, "added") for _ in repair["added"]
    ]


def test_the_summary_names_every_source_with_its_address(told: Told) -> None:
    rows = cells(book_of(told), "Summary")
    addresses = {row[1] for row in rows}
    assert {source["url"] for one in told["conclusions"] for source in one["sources"] if source["url"]} <= addresses


@pytest.mark.parametrize("format", FORMATS)
def test_the_same_answer_gives_the_same_words_in_every_format(told: Told, format: Format) -> None:
    data = render(told, format, on=ON)
    text = "".join(pdf_of(told)) if format == "pdf" else data.decode("utf-8", "replace")
    if format == "xlsx":
        text = str([cells(book_of(told), name) for name in book_of(told).sheetnames])
    if format == "eml":
        text = str(mail_of(told).get_body(("plain",)).get_content())  # type: ignore[union-attr]
    assert "Honeycrisp" in text
    assert format in ("svg", "json") or "does not work here as it stands" in text


def test_json_comes_out_as_it_went_in(told: Told) -> None:
    assert json.loads(render(told, "json", on=ON)) == told


def test_the_sheet_has_two_pages_at_most_and_says_all_that_belongs_there(told: Told) -> None:
    pages = pdf_of(told)
    text = " ".join(" ".join(pages).split())
    assert len(pages) <= 2
    for words in ("Line by line", "Planting sketch of the mended list", "Harvest", "Who says so", "November 25, 2026"):
        assert words in text
    for line in told["answer"]["lines"]:
        assert WORDS[line["verdict"]]["en"] in text
    for month in ("Jan", "Dec"):
        assert month in text
    assert "hardiness zone 7a" in text


def test_the_spanish_sheet_is_spanish_throughout(spanish: Told) -> None:
    text = " ".join(" ".join(pdf_of(spanish)).split())
    for words in ("Lista de plantación, revisada", "Línea por línea", "no va bien", "Quién lo dice", "Cosecha", "ene"):
        assert words in text
    for english in ("fits with care", "Line by line", "the size of the plot", "Late winter"):
        assert english not in text


def test_the_cautions_of_rules_stand_on_the_sheet_and_in_the_text(told: Told) -> None:
    careful = {**told, "cautions": [{"id": "x", "text": "Look out for the ladder."}]}
    assert "Look out for the ladder." in "".join(pdf_of(careful))
    assert "Look out for the ladder." in render(careful, "text", on=ON).decode()


@pytest.mark.parametrize("lines", [1, 30, 120, 500])
def test_however_long_the_list_the_sheet_has_two_pages(counter: ListCounter, lines: int) -> None:
    names = ("Honeycrisp apple on M.9", "Bartlett pear on Quince A", "Mission fig", "Zzyxqv the unknown", "Bing cherry")
    told = told_of(counter, "\n".join(f"{n % 3 + 1} {names[n % 5]}" for n in range(lines)), name="list.txt")
    pages = pdf_of(told)
    assert len(pages) <= 2
    text = " ".join(" ".join(pages).split())
    if lines > MOST_ROWS:
        assert "Here stand the lines that need most" in text
        assert "not recognised" in text
    else:
        assert "Here stand" not in text
        assert all(names[n % 5].split()[0] in text for n in range(min(lines, 5)))


def test_letters_that_the_sheet_lacks_are_written_in_the_nearest_way(counter: ListCounter) -> None:
    text = "".join(pdf_of(told_of(counter, "1 Яблоко Čačak ≥ piñón", name="list.txt")))
    assert "Cacak >= piñón" in text


def test_a_list_without_anything_to_draw_says_so_in_the_picture(counter: ListCounter) -> None:
    told = told_of(counter, "Zzyxqv")
    told["answer"] |= {"sketch": None, "harvest": None, "repair": None}
    picture = render(told, "svg", on=ON).decode()
    assert "Nothing to draw" in picture
    ElementTree.fromstring(picture)


def test_the_picture_shows_sketch_and_harvest(told: Told) -> None:
    root = ElementTree.fromstring(render(told, "svg", on=ON))
    words = "".join(root.itertext())
    assert "Planting sketch" in words
    assert "Harvest" in words
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_the_mail_is_a_draft_with_both_files(told: Told) -> None:
    mail = mail_of(told)
    assert (mail["X-Unsent"], mail["Subject"], mail["To"]) == ("1", "Your planting list", None)
    assert mail["Content-Language"] == "en"
    files = {one.get_filename(): one for one in mail.iter_attachments()}
    assert set(files) == {"planting-list.pdf", "planting-list.xlsx"}
    assert len(PdfReader(io.BytesIO(files["planting-list.pdf"].get_content())).pages) <= 2
    assert "list.csv" in openpyxl.load_workbook(io.BytesIO(files["planting-list.xlsx"].get_content())).sheetnames


def headed(told: Told, **head: str | None) -> EmailMessage:
    mail = {"sender": None, "subject": None, "message_id": None, **head}
    source = {**told["answer"]["read"]["sources"][0], "mail": mail}
    answer = {**told["answer"], "read": {**told["answer"]["read"], "sources": [source]}}
    return mail_of({**told, "answer": answer})


def test_a_mail_is_answered_once_and_in_its_thread(told: Told) -> None:
    mail = headed(told, sender="g@example.org", subject="Re: Árboles", message_id="<1@example.org>")
    assert (mail["To"], mail["Subject"], mail["In-Reply-To"]) == ("g@example.org", "Re: Árboles", "<1@example.org>")


def test_what_a_mail_says_of_itself_cannot_add_a_header(told: Told) -> None:
    mail = headed(told, subject="Hi\r\nBcc: thief@example.org", message_id="<1@example.org>\r\nBcc: thief@example.org")
    assert mail["Bcc"] is None
    assert "thief" in mail["Subject"]


def test_the_text_is_never_wider_than_a_mail_takes(told: Told, spanish: Told) -> None:
    for one in (told, spanish):
        for line in render(one, "text", on=ON).decode().splitlines():
            assert len(line) <= 78 or "http" in line


def test_a_long_list_is_written_in_little_memory(told: Told) -> None:
    answer = {**told["answer"], "repair": None}
    line = answer["lines"][0]

    def lines(count: int) -> Iterator[Mapping[str, Any]]:
        return ({**line, "line": number, "row": number + 1} for number in range(1, count + 1))

    def peak(count: int, format: Format) -> int:
        tracemalloc.start()
        write(with_lines({**told, "answer": answer}, lines(count)), format, _Nowhere(), on=ON)
        _, most = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        return most

    for format in ("xlsx", "text", "json", "pdf"):
        few, many = peak(1_500, format), peak(4_500, format)  # type: ignore[arg-type]
        assert many < few + 2_000_000, format


class _Nowhere(io.BytesIO):
    """Takes bytes and keeps none, so that only what the writer holds is counted."""

    def write(self, data: Any) -> int:
        self.place = getattr(self, "place", 0) + len(data)
        return len(data)

    def tell(self) -> int:
        return getattr(self, "place", 0)

    def seekable(self) -> bool:
        return False

    def writelines(self, pieces: Any) -> None:
        for piece in pieces:
            self.write(piece)


def test_every_outcome_has_its_weight_and_every_word_both_languages() -> None:
    assert next(iter(WEIGHTS)) == "forbid"
    for texts in (*WORDS.values(), *SEASONS.values(), *SKIPPED.values()):
        assert set(texts) == {"en", "es"}


def test_what_is_asked_for_has_spanish_words(rulebook: Rulebook) -> None:
    vocabulary = rulebook.vocabulary
    names = vocabulary.testable("planting-list.line") | vocabulary.testable("planting-list.list")
    needs = {vocabulary.facts[name].needs for name in names if name in vocabulary.facts}
    assert {one for one in needs if one} <= set(SPANISH)


def test_the_order_of_planting_is_that_of_the_mended_list(told: Told) -> None:
    report = list_report(told, {line["line"]: line for line in told["answer"]["lines"]}, on=ON)
    dropped = {line["line"] for line in told["answer"]["repair"]["lines"] if line["change"] == "drop"}
    kept = {name["name"] for line in told["answer"]["repair"]["lines"] for name in line["cultivars"]}
    gone = {name["name"] for line in told["answer"]["lines"] if line["line"] in dropped for name in line["read_as"]}
    assert gone - kept
    assert not any(name in words for words in report.order for name in gone - kept)


def test_a_change_of_some_trees_of_a_line_says_how_many(told: Told) -> None:
    report = list_report(told, {line["line"]: line for line in told["answer"]["lines"]}, on=ON)
    changed = [line for line in told["answer"]["repair"]["lines"] if line["change"] != "keep"]
    for line, words in zip(changed, report.changes, strict=False):
        assert f"{line['trees']} × " in words
        assert words.startswith(f"Line {line['line']}: ")


def test_more_rows_than_a_sheet_holds_go_on_on_the_next(told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = cells(book_of(told), "list.csv")
    monkeypatch.setattr("service.present.planting_list_out.workbook.MOST_ROWS", 4)
    book = book_of(told)
    names = [name for name in book.sheetnames if name.startswith("list.csv")]
    assert names == ["list.csv", "list.csv 2", "list.csv 3"]
    assert [cells(book, name)[0] for name in names] == [whole[0]] * 3
    assert [row for name in names for row in cells(book, name)[1:]] == whole[1:]
