"""A label record goes into plain values and comes back, without amounts."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.domain.label import LabelRecord
from service.domain.plain_label import ON_THE_LABEL, plain_record, read_record, without_amounts
from tests.made_up_labels import label


def test_a_record_comes_back_as_it_went() -> None:
    record = read_record(label()).record
    assert record.label_version_date == date(2026, 1, 15)
    assert record.compatibility.intervals[0].other == "mineral oil"
    assert read_record(plain_record(record)).record == record


def test_what_is_not_there_is_unknown_and_not_no() -> None:
    record = read_record({"product_name": "  "}).record
    assert record == LabelRecord()
    assert record.restricted_use is None
    assert record.sites == ()


def test_a_rate_is_dropped_and_its_place_is_told() -> None:
    sites = [{"crop_as_printed": "apple"}, {"crop_as_printed": "peach", "rate_text": "2 tbsp per gallon"}]
    read = read_record(label(sites=sites))
    assert read.left_out == ("/sites/1/rate_text",)
    assert "tbsp" not in str(plain_record(read.record))


def test_amounts_are_taken_out_of_what_the_label_says_of_a_season() -> None:
    read = read_record(label(max_seasonal_ai_text="Not more than 4 lb per acre a year from all products."))
    assert read.record.max_seasonal_ai_text == f"Not more than {ON_THE_LABEL} a year from all products."
    assert read.left_out == ("/max_seasonal_ai_text",)


@pytest.mark.parametrize(
    "text",
    [
        "2 tbsp per gal", "1/2 cup in 1 gallon", "0.5-1.5 fl oz/gal", "3 to 4 lb per acre", "1,000 g", "8 oz. per tree",
        "2 teaspoonfuls", "5 mL per 100 sq ft", "1 pt/100 gal",
    ],
)  # fmt: skip
def test_every_way_to_write_an_amount_is_taken_out(text: str) -> None:
    kept = without_amounts(f"Use {text} of water.")
    assert not any(letter.isdigit() for letter in kept), kept


@pytest.mark.parametrize("text", ["within 14 days", "25 ft of water", "48 hours", "85 °F", "group 4A", "2 uses a year"])
def test_other_numbers_stay(text: str) -> None:
    assert without_amounts(text) == text


@given(st.text(alphabet="0123456789.,/- tolbga", max_size=3000))
def test_any_text_is_read_without_going_astray(text: str) -> None:
    assert without_amounts(without_amounts(text)) == without_amounts(text)
