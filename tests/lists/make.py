"""Makes the workbooks and the mails with attachments among these lists. All of it is invented.

    python tests/lists/make.py
"""

from __future__ import annotations

import io
import zipfile
from datetime import date
from email.message import EmailMessage
from email.policy import SMTP
from pathlib import Path

from openpyxl import Workbook

HERE = Path(__file__).parent
ODS_TYPE = "application/vnd.oasis.opendocument.spreadsheet"
XLSX_TYPE = ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet")


def workbook(*sheets: tuple[str, list[list[object]]], hidden: str = "") -> bytes:
    """A workbook of these sheets."""
    book = Workbook()
    book.remove(book.active)
    for name, rows in sheets:
        sheet = book.create_sheet(name)
        sheet.sheet_state = "hidden" if name == hidden else "visible"
        for row in rows:
            sheet.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def ods(rows: str) -> bytes:
    """An OpenDocument sheet with the rows written as XML."""
    spaces = " ".join(
        f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"' for name in ("office", "table", "text")
    )
    content = (
        f'<?xml version="1.0" encoding="UTF-8"?><office:document-content {spaces} office:version="1.2"><office:body>'
        f'<office:spreadsheet><table:table table:name="Lista">{rows}</table:table></office:spreadsheet>'
        "</office:body></office:document-content>"
    )
    manifest = (
        '<?xml version="1.0"?><manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
        f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{ODS_TYPE}"/></manifest:manifest>'
    )
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, text in (("mimetype", ODS_TYPE), ("content.xml", content), ("META-INF/manifest.xml", manifest)):
            packed.writestr(zipfile.ZipInfo(name), text)
    return file.getvalue()


def ods_row(*cells: str, times: int = 1) -> str:
    """A row of an OpenDocument sheet."""
    inner = "".join(
        f'<table:table-cell office:value-type="float" office:value="{cell}"><text:p>{cell}</text:p></table:table-cell>'
        if cell.isdecimal()
        else f'<table:table-cell office:value-type="string"><text:p>{cell}</text:p></table:table-cell>'
        for cell in cells
    )
    empty = '<table:table-cell table:number-columns-repeated="16000"/>'
    return f'<table:table-row table:number-rows-repeated="{times}">{inner}{empty}</table:table-row>'


def mail(subject: str, text: str) -> EmailMessage:
    """A mail between invented addresses."""
    message = EmailMessage(policy=SMTP)
    message["From"], message["To"], message["Subject"] = "plot-e1@example.org", "counter@example.org", subject
    message.set_content(text)
    return message


def save(name: str, content: bytes) -> None:
    """Write a list."""
    (HERE / name).write_bytes(content)


def make_workbooks() -> None:
    """The workbooks."""
    plain = workbook(("List", [["Variety", "Qty", "Rootstock"], ["Liberty", 2, "M.9"], ["Bing", 1.0, "Colt"]]))
    save("45-plain.xlsx", plain)
    save("46-wrong-ending.csv", plain)
    rows = ods_row("Variedad", "Cantidad") + ods_row("Redhaven", "2") + ods_row(times=40) + ods_row("Granada", "1")
    save("47-lista.ods", ods(rows + ods_row(times=1_048_000)))
    save("48-several-sheets.xlsx", workbook(
        ("Front", [["Lantern Corner Nursery (invented)"], [], ["Qty", "Tree", "Variety"], [2, "apple", "Gala"]]),
        ("Back", [["PEACHES"], ["Gala", 1], ["Redhaven", 3]]),
        ("Prices", [["Variety", "Qty"], ["Lapins", 9]]),
        hidden="Prices",
    ))  # fmt: skip
    save("49-mixed-values.xlsx", workbook((
        "Order",
        [
            [None, "Date", "Variety", "Number", "Unit price", "Planted?"],
            [None, date(2027, 3, 1), "Liberty", 2, 39.5, True],
            [None, date(2027, 3, 2), "Enterprise", "three", "$36", False],
            [None, None, "Moorpark", None, None, None],
            [None, "Total", None, 6, None, None],
        ],
    )))  # fmt: skip


def make_mails() -> None:
    """The mails with something in them."""
    several = mail("two lists", "Hi,\n\nboth lists are attached. Also please add:\n- 1 Seckel pear\n\nThanks\n")
    page = "<p>Hi, both lists are attached. Also please add:</p><p>- 1 Seckel pear</p>"
    several.add_alternative(page, subtype="html")
    several.add_attachment("Qty;Variety\n2;Liberty\n", filename="front.csv", subtype="csv")
    book = workbook(("Back", [["Variety", "Qty"], ["Bing", 1]]))
    several.add_attachment(book, maintype=XLSX_TYPE[0], subtype=XLSX_TYPE[1], filename="back.xlsx")
    several.add_attachment(b"\x89PNG\r\n", maintype="image", subtype="png", filename="garden.png")
    several.add_attachment(b"%PDF-1.7", maintype="application", subtype="pdf", filename="plan.pdf")
    save("50-several-attachments.eml", several.as_bytes())
    inner = mail("for the south plot", "3 Fantasia nectarine\n1 Methley plum\n")
    inner.add_attachment("Variety,Qty\nFlavortop,2\n", filename="more.csv", subtype="csv")
    outer = mail("Fwd: for the south plot", "See the mail below.\n")
    outer.add_attachment(inner)
    save("51-forwarded-as-attachment.eml", outer.as_bytes())


if __name__ == "__main__":
    make_workbooks()
    make_mails()
