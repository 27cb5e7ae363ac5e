"""Mails: what the sender wrote or forwarded is read, what was quoted or signed is not."""

from __future__ import annotations

from email.message import EmailMessage

import pytest

from service.intake.planting_list import ListReader, Upload
from service.intake.planting_list.html_text import html_text
from service.intake.planting_list.mail_text import own_text


def cultivars(reader: ListReader, message: EmailMessage) -> list[str | None]:
    message["From"], message["Subject"] = "a@example.org", "trees"
    read = reader.read(Upload(message.as_bytes(), "mail.eml"))
    return [name.cultivar for line in read.lines for name in line.names]


@pytest.mark.parametrize(
    "introduction",
    [
        "On Mon, 2 Nov 2026 at 10:12, the counter <c@example.org> wrote:",
        "On Mon, 2 Nov 2026 at 10:12, the counter\n<c@example.org> wrote:",
        "El lun, 2 nov 2026 a las 10:12, mostrador <c@example.org> escribió:",
        "-----Original Message-----\nFrom: c@example.org\nSent: Monday\nTo: a@example.org",
        "From: c@example.org\nSent: Monday\nTo: a@example.org\nSubject: offer",
    ],
)
def test_an_earlier_mail_below_the_list_is_left_out(introduction: str) -> None:
    assert own_text(f"2 Liberty\n1 Bing\n\n{introduction}\n5 Lapins\n") == "2 Liberty\n1 Bing"


@pytest.mark.parametrize(
    "introduction",
    [
        "---------- Forwarded message ---------\nFrom: b@example.org\nDate: Monday\nSubject: list\nTo: c@example.org",
        "Begin forwarded message:\n\nFrom: b@example.org\nSubject: list",
        "-----Original Message-----\nFrom: b@example.org\nSent: Monday\nTo: c@example.org\nSubject: list",
        "---------- Mensaje reenviado ---------\nDe: b@example.org\nFecha: lunes\nAsunto: lista",
    ],
)
def test_what_is_forwarded_is_read(introduction: str) -> None:
    assert own_text(f"Can you check this?\n\n{introduction}\n\n5 Lapins").splitlines()[-1] == "5 Lapins"
    assert "example.org" not in own_text(f"Can you check this?\n\n{introduction}\n\n5 Lapins")


def test_a_forwarded_mail_below_a_signature_is_read() -> None:
    body = "See below.\n-- \nthe counter\n\n---------- Forwarded message ---------\nFrom: b@example.org\n\n5 Lapins"
    assert own_text(body) == "See below.\n5 Lapins"


def test_a_mail_that_is_all_quoted_is_read() -> None:
    assert own_text("> 2 Redhaven\n> 1 Contender\n") == "2 Redhaven\n1 Contender"


def test_a_list_that_is_forwarded_with_signs_of_quoting_is_read() -> None:
    assert own_text("Begin forwarded message:\n\n> From: b@example.org\n> Subject: x\n>\n> 5 Lapins") == "5 Lapins"


def test_a_signature_is_left_out() -> None:
    assert own_text("2 Liberty\n-- \nBing Lane 5") == "2 Liberty"


def test_of_two_forms_of_one_body_one_is_read(reader: ListReader) -> None:
    message = EmailMessage()
    message.set_content("2 Liberty\n")
    message.add_alternative("<p>2 Liberty</p>", subtype="html")
    assert cultivars(reader, message) == ["apple.liberty"]


def test_a_body_in_html_alone_is_read_without_scripts_and_quotes(reader: ListReader) -> None:
    message = EmailMessage()
    message.set_content(
        "<style>p{}</style><script>9 Bing</script><p>2&nbsp;Liberty<br>1 Enterprise</p>"
        "<div>On Monday c@example.org wrote:</div><blockquote class='quote'>5 Lapins</blockquote>",
        subtype="html",
    )
    assert cultivars(reader, message) == ["apple.liberty", "apple.enterprise"]


def test_an_attachment_is_known_by_its_content(reader: ListReader) -> None:
    message = EmailMessage()
    message.set_content("The list is attached.\n")
    data = b"Variety;Qty\nLiberty;2\n"
    message.add_attachment(data, maintype="application", subtype="octet-stream", filename="x.bin")
    assert cultivars(reader, message) == ["apple.liberty"]


def test_the_place_of_a_line_names_the_attachment_and_the_sheet(reader: ListReader) -> None:
    message = EmailMessage()
    message["From"], message["Subject"] = "a@example.org", "trees"
    message.set_content("2 Liberty\n")
    message.add_attachment("Variety,Qty\nBing,1\n", subtype="csv", filename="back.csv")
    read = reader.read(Upload(message.as_bytes(), "mail.eml"))
    assert [(line.row.place.file, line.row.place.attachment, line.row.number) for line in read.lines] == [
        ("mail.eml", "back.csv", 2), ("mail.eml", "body", 1),
    ]  # fmt: skip


@pytest.mark.parametrize("page", ["<p>2 Liberty", "<table><tr><td>2<td>Liberty", "<b><i>2</b> Liberty</i></p></div>",
                                  "<!-- <p> -->2 Liberty", "<svg><p>9 Bing</svg>2 Liberty"])  # fmt: skip
def test_a_page_with_broken_tags_is_read(page: str) -> None:
    assert html_text(page, longest=100).split() == ["2", "Liberty"]


def test_a_page_is_cut_at_its_limit() -> None:
    assert len(html_text("<p>tree</p>" * 10_000, longest=500)) <= 500
