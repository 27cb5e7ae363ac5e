"""A checked list as the client accepts it: workbook, sheet, text, mail and picture over the API."""

from __future__ import annotations

import io
from email import message_from_bytes
from email.policy import default
from typing import Any

import openpyxl
import pytest
from flask.testing import FlaskClient
from pypdf import PdfReader

from service.present.planting_list_out import MEDIA_TYPES, SUFFIXES, Format

ADDRESS = "/v1/planting-lists"
ASKED = {
    "text": "2 Honeycrisp on M.9\nGalla apple\nZzyxqv\n5 Bartlett pear on Quince A",
    "site": {"hardiness_zone": "7a", "chill_hours": 900, "width_ft": 60, "depth_ft": 40},
}
MAIL = (
    b"From: A Grower <grower@example.org>\r\nTo: store@example.org\r\nSubject: Trees for spring\r\n"
    b"Message-ID: <42@example.org>\r\nContent-Type: text/plain\r\n\r\n2 Honeycrisp on M.9\r\n1 Liberty apple\r\n"
)


def sent(client: FlaskClient, format: Format, **more: Any) -> Any:
    told = client.post(ADDRESS, json={**ASKED, **more}, headers={"Accept": MEDIA_TYPES[format]})
    assert told.status_code == 200, told.text
    assert told.mimetype == MEDIA_TYPES[format]
    assert "Accept" in told.vary
    assert told.headers["Cache-Control"] == "no-store"
    return told


@pytest.mark.parametrize("format", ["xlsx", "pdf", "text", "eml", "svg"])
def test_each_format_comes_under_a_name_of_its_own(client: FlaskClient, format: Format) -> None:
    assert sent(client, format).headers["Content-Disposition"].endswith(f'filename="planting-list{SUFFIXES[format]}"')


def test_without_a_wish_it_is_json(client: FlaskClient) -> None:
    assert client.post(ADDRESS, json=ASKED).mimetype == "application/json"
    assert client.post(ADDRESS, json=ASKED, headers={"Accept": "*/*"}).mimetype == "application/json"


def test_what_nobody_writes_is_not_acceptable(client: FlaskClient) -> None:
    told = client.post(ADDRESS, json=ASKED, headers={"Accept": "image/png"})
    assert (told.status_code, told.mimetype) == (406, "application/problem+json")


def test_a_refusal_stays_a_problem_whatever_is_accepted(client: FlaskClient) -> None:
    told = client.post(ADDRESS, json={}, headers={"Accept": MEDIA_TYPES["pdf"]})
    assert (told.status_code, told.mimetype) == (422, "application/problem+json")


def test_the_workbook_of_an_uploaded_file_bears_its_name(client: FlaskClient) -> None:
    data = {"file": (io.BytesIO(b"qty;sorte\n2;Honeycrisp\n1;=1+1\n"), "garden.csv")}
    told = client.post(ADDRESS, data=data, content_type="multipart/form-data", headers={"Accept": MEDIA_TYPES["xlsx"]})
    sheet = openpyxl.load_workbook(io.BytesIO(told.data))["garden.csv"]
    rows = [row[:2] for row in sheet.iter_rows(values_only=True)]
    assert rows == [("qty", "sorte"), ("2", "Honeycrisp"), ("1", "=1+1")]


def test_the_sheet_speaks_the_language_that_was_asked_for(client: FlaskClient) -> None:
    pages = PdfReader(io.BytesIO(sent(client, "pdf", language="es").data)).pages
    assert "Lista de plantación" in pages[0].extract_text()


def test_a_mail_is_answered_to_its_sender(client: FlaskClient) -> None:
    data = {"file": (io.BytesIO(MAIL), "list.eml")}
    told = client.post(ADDRESS, data=data, content_type="multipart/form-data", headers={"Accept": MEDIA_TYPES["eml"]})
    draft = message_from_bytes(told.data, policy=default)
    assert (draft["To"], draft["Subject"]) == ("grower@example.org", "Re: Trees for spring")
    assert draft["In-Reply-To"] == "<42@example.org>"
    assert draft["X-Unsent"] == "1"
