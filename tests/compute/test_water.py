"""Water: what must hold for every climate and crown."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.compute.water import (
    CoefficientCurve,
    Crown,
    gallons_a_day,
    hargreaves_mm,
    monthly_extremes_c,
    sun_above_mm,
)
from service.domain.weather import DailySeries, HourlySeries, MonthlyMeans
from tests.published.weather_at_hand import models

MODEL = models().evapotranspiration
CURVE = CoefficientCurve(0.45, 0.95, 0.7, 20, 70, 120, 60)


@given(latitude=st.floats(-66, 66), day=st.integers(1, 365))
def test_the_sun_above_the_air_evaporates_none_to_twenty_millimetres(latitude: float, day: int) -> None:
    assert 0 <= sun_above_mm(latitude, day, MODEL) < 20


@given(low=st.floats(-20, 30), spread=st.floats(0, 25), wider=st.floats(0, 5))
def test_a_wider_day_gives_off_no_less_water(low: float, spread: float, wider: float) -> None:
    narrow = hargreaves_mm(low, low + spread, sun_mm=15, model=MODEL)
    assert hargreaves_mm(low, low + spread + wider, sun_mm=15, model=MODEL) >= narrow >= 0


@given(day=st.floats(0, 270))
def test_the_coefficient_stays_between_its_least_and_its_most(day: float) -> None:
    found = CURVE.at(day)
    assert found is not None
    assert 0.45 <= found <= 0.95


@pytest.mark.parametrize("day", [-1, 271])
def test_a_bare_tree_has_no_coefficient(day: float) -> None:
    assert CURVE.at(day) is None


@given(width=st.floats(0.5, 60), times=st.floats(1, 3))
def test_twice_the_width_draws_four_times_the_water(width: float, times: float) -> None:
    one, two = (gallons_a_day(0.2, 0.9, Crown(feet, 0.85, times)) for feet in (width, width * 2))
    assert two == pytest.approx(4 * one)


def test_extremes_of_months_leave_out_days_that_were_not_read() -> None:
    series = DailySeries(
        np.datetime64("2026-01-30"), np.array([1.0, np.nan, 3.0]), np.array([11.0, 12.0, 13.0])
    )
    assert monthly_extremes_c(series) == {1: (1.0, 11.0), 2: (3.0, 13.0)}


def test_hours_give_the_extremes_of_their_days() -> None:
    series = HourlySeries(np.datetime64("2026-07-01"), np.tile(np.arange(24.0), 2))
    assert monthly_extremes_c(series) == {7: (0.0, 23.0)}


def test_monthly_means_have_no_extremes() -> None:
    assert monthly_extremes_c(MonthlyMeans({7: 22.0})) == {}
