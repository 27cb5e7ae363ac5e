"""Nitrogen: what must hold for every tree."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from service.compute.feeding import Nitrogen, Rates, nitrogen

RATES = Rates(first_year_oz=0.8, a_year_oz=1.6, an_inch_oz=2, cap_oz=8)


@given(age=st.floats(1.1, 200), trunk=st.floats(0.1, 60), share=st.floats(0, 2))
def test_no_tree_gets_more_than_the_cap(age: float, trunk: float, share: float) -> None:
    found = nitrogen(Rates(a_year_oz=1.6, an_inch_oz=2, cap_oz=8, share=share), age_years=age, trunk_in=trunk)
    assert found is not None
    assert 0 <= found.year_oz <= 8


@given(age=st.floats(1.1, 200), trunk=st.floats(0.1, 60))
def test_one_more_measure_never_raises_the_amount(age: float, trunk: float) -> None:
    by_age, by_both = (nitrogen(RATES, age_years=age, trunk_in=inches) for inches in (None, trunk))
    assert by_age is not None
    assert by_both is not None
    assert by_both.year_oz <= by_age.year_oz


def test_a_tree_in_its_first_summer_never_gets_more_for_weak_growth() -> None:
    weak = Rates(first_year_oz=0.8, share=1.5)
    assert nitrogen(weak, age_years=1, trunk_in=None) == Nitrogen(0.8, "first_year")


def test_what_no_source_gives_is_not_reckoned() -> None:
    assert nitrogen(Rates(), age_years=5, trunk_in=3) is None
    assert nitrogen(RATES, age_years=None, trunk_in=None) is None
    assert nitrogen(Rates(a_year_oz=1.6), age_years=1, trunk_in=None) is None
