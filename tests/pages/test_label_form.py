"""The form for a label record has a field for everything that the API takes, but for rates."""

from __future__ import annotations

import re
from collections.abc import Iterator

import marshmallow as ma
import pytest
from flask.testing import FlaskClient

from service.api.label_asked import LabelAsked
from service.pages.label_form import RATE, FormField, FormGroup, label_form


def pointers(parts: tuple[FormField | FormGroup, ...]) -> Iterator[str]:
    for part in parts:
        if isinstance(part, FormGroup):
            yield from pointers(part.parts)
        else:
            yield part.pointer


def documented(schema: ma.Schema, at: str = "") -> Iterator[str]:
    for name, field in schema.fields.items():
        pointer = f"{at}/{field.data_key or name}"
        if isinstance(field, ma.fields.Nested):
            yield from documented(field.schema, f"{pointer}/{{n}}" if field.many else pointer)
        else:
            yield pointer


def test_every_field_that_the_api_takes_is_in_the_form_once_and_no_rate() -> None:
    inputs = list(pointers(label_form()))
    assert len(inputs) == len(set(inputs))
    assert set(documented(LabelAsked())) - set(inputs) == {f"/sites/{{n}}/{RATE}"}
    assert set(inputs) <= set(documented(LabelAsked()))


def test_a_choice_offers_what_the_api_takes() -> None:
    (word,) = [part for section in label_form() for part in section.parts
               if isinstance(part, FormField) and part.pointer == "/signal_word"]  # fmt: skip
    assert (word.kind, word.values) == ("choice", ("DANGER", "WARNING", "CAUTION", "none"))


@pytest.mark.parametrize("address", ["/shelf", "/shelf/new", "/shelf/products/DP01"])
def test_every_input_has_a_label_and_every_description_is_there(client: FlaskClient, address: str) -> None:
    page = client.get(address).text
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for input_id in re.findall(r'<(?:input|select|textarea) id="([^"]+)"', page):
        assert f'<label for="{input_id}">' in page
    for described in re.findall(r'aria-describedby="([^"]+)"', page):
        assert set(described.split()) <= set(ids)


def test_a_name_in_the_address_is_shown_as_text(client: FlaskClient) -> None:
    assert "<script>x" not in client.get("/shelf/products/%3Cscript%3Ex").text
