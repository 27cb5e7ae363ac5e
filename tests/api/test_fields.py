"""What a schema takes and what it refuses, told through a small resource of the tests' own."""

from __future__ import annotations

from typing import Any

import marshmallow as ma
import pytest

from service.api.fields import (
    Asked,
    AskedInQuery,
    Told,
    choice,
    date_text,
    flag,
    list_of,
    month_day,
    nested,
    number,
    whole,
)
from service.api.fields import text as words
from service.api.pointers import faults_of


class PlotAsked(Asked):
    width_ft = number("Width.", unit="ft", example=12, low=1, high=5000)
    trees = whole("Trees.", unit="count", example=3, low=1)
    drainage = choice("Drainage.", values=("good", "poor"))
    replant = flag("Replanted.")
    frost = month_day("Last frost.")
    planted = date_text("Planted.")
    crops = list_of(words("A crop.", example="apple"), "Crops.", example=["apple"], most=2)


class QuestionAsked(Asked):
    plot = nested(PlotAsked, "The plot.", required=True)


class PageAsked(AskedInQuery):
    limit = whole("How many.", unit="count", example=3, low=1, high=9)
    all_ = flag("All.")


def refused(plot: dict[str, Any]) -> dict[str, str]:
    with pytest.raises(ma.ValidationError) as caught:
        QuestionAsked().load({"plot": plot})
    return dict(faults_of({"json": caught.value.messages}))


@pytest.mark.parametrize("value", [True, "12", [12], {}])
def test_a_number_must_be_a_number(value: object) -> None:
    assert refused({"width_ft": value}) == {"/plot/width_ft": "This must be a number."}


def test_a_number_out_of_range_is_told_the_range_with_its_unit() -> None:
    assert refused({"width_ft": 0.5}) == {"/plot/width_ft": "0.5 is out of range; 1 to 5000 ft is taken."}


def test_the_ends_of_a_range_are_taken() -> None:
    assert PlotAsked().load({"width_ft": 5000})["width_ft"] == 5000
    assert PlotAsked().load({"width_ft": 1})["width_ft"] == 1


@pytest.mark.parametrize("value", [1.5, "3", False])
def test_a_whole_number_must_be_whole(value: object) -> None:
    assert refused({"trees": value}) == {"/plot/trees": "This must be a whole number."}


def test_three_point_nought_is_a_whole_number() -> None:
    assert PlotAsked().load({"trees": 3.0}) == {"trees": 3}


@pytest.mark.parametrize("value", ["yes", 1, 0, "true"])
def test_a_flag_must_be_true_or_false(value: object) -> None:
    assert refused({"replant": value}) == {"/plot/replant": "This must be true or false."}


def test_a_word_outside_the_list_is_told_the_list() -> None:
    assert refused({"drainage": "wet"}) == {"/plot/drainage": "'wet' is not one of the values taken here: good, poor."}


@pytest.mark.parametrize("value", ["2-30", "02-30", "13-01", "04-31", "03-20\n"])
def test_a_day_of_the_year_must_exist(value: str) -> None:
    assert "/plot/frost" in refused({"frost": value})


def test_the_last_day_of_february_in_a_leap_year_is_a_day_of_the_year() -> None:
    assert PlotAsked().load({"frost": "02-29"}) == {"frost": "02-29"}


@pytest.mark.parametrize("value", ["2026-02-29", "20260320", "2026-3-2", "yesterday"])
def test_a_date_must_exist_and_be_written_with_hyphens(value: str) -> None:
    assert refused({"planted": value}) == {"/plot/planted": "This must be a date such as 2026-03-20."}


def test_a_list_says_which_entry_is_wrong_and_when_it_is_too_long() -> None:
    assert refused({"crops": ["apple", 3]}) == {"/plot/crops/1": "This must be text."}
    assert refused({"crops": ["apple"] * 3}) == {"/plot/crops": "0 to 2 entries are taken."}


def test_a_misspelt_field_is_told_the_nearest_name() -> None:
    assert refused({"widht_ft": 3}) == {"/plot/widht_ft": "This field is not known; did you mean 'width_ft'?"}


def test_null_says_that_nobody_knows_and_is_taken_where_a_field_may_be_left_out() -> None:
    assert QuestionAsked().load({"plot": {"width_ft": None}}) == {"plot": {"width_ft": None}}


def test_null_is_not_taken_for_what_is_needed() -> None:
    with pytest.raises(ma.ValidationError) as caught:
        QuestionAsked().load({"plot": None})
    assert faults_of({"json": caught.value.messages}) == [("/plot", "This field cannot be null.")]


def test_a_query_string_carries_numbers_and_flags_as_text() -> None:
    assert PageAsked().load({"limit": "3", "all": "true"}) == {"limit": 3, "all_": True}
    for wrong in ("3.0", "03", "٣", "", "1e1"):
        with pytest.raises(ma.ValidationError):
            PageAsked().load({"limit": wrong})


def test_a_told_field_that_ends_in_an_underscore_loses_it() -> None:
    class SpellTold(Told):
        from_ = month_day("First day.")

    assert SpellTold().dump({"from_": "03-01"}) == {"from": "03-01"}
