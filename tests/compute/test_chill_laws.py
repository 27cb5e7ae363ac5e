"""Laws that every count of chill obeys, whatever the winter."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from service.compute.chill import chill_hours, chill_units
from service.compute.heat import growing_degree_hours
from service.domain.climate_models import ChillClasses
from service.domain.weather import Floats
from tests.published.weather_at_hand import models

MODELS = models()
winters = arrays(np.float64, (2, 60), elements=st.floats(-40, 45) | st.just(math.nan))


@given(winters, st.floats(0, 20))
def test_a_colder_winter_never_has_fewer_hours_at_or_below_45_f(hours_c: Floats, colder_by: float) -> None:
    count = chill_hours(hours_c, MODELS.hours_at_or_below_45f)
    assert (chill_hours(hours_c - colder_by, MODELS.hours_at_or_below_45f) >= count).all()


@given(winters)
def test_hours_without_frost_are_no_more_than_all_cold_hours(hours_c: Floats) -> None:
    frostless = chill_hours(hours_c, MODELS.hours_32_45f)
    assert (frostless <= chill_hours(hours_c, MODELS.hours_at_or_below_45f)).all()


@given(winters)
def test_units_are_those_of_looking_up_each_hour(hours_c: Floats) -> None:
    for classes in (MODELS.utah, MODELS.positive_utah):
        place = np.searchsorted(np.array(classes.edges_c), hours_c)
        looked_up = np.where(np.isnan(hours_c), 0.0, np.array(classes.units)[np.minimum(place, len(classes.edges_c))])
        assert chill_units(hours_c, classes) == pytest.approx(looked_up.sum(axis=1))


@given(winters)
def test_positive_units_are_never_below_utah_units(hours_c: Floats) -> None:
    assert (chill_units(hours_c, MODELS.positive_utah) >= chill_units(hours_c, MODELS.utah)).all()


@given(winters, st.randoms())
def test_counts_do_not_depend_on_the_order_of_hours(hours_c: Floats, random: object) -> None:
    shuffled = np.stack([np.array(sorted(row, key=lambda _: random.random())) for row in hours_c])  # type: ignore[attr-defined]
    assert (chill_units(shuffled, MODELS.utah) == chill_units(hours_c, MODELS.utah)).all()
    assert growing_degree_hours(shuffled, MODELS.heat) == pytest.approx(growing_degree_hours(hours_c, MODELS.heat))


@given(winters)
def test_heat_is_never_negative_and_never_above_the_best_hour(hours_c: Floats) -> None:
    heat = growing_degree_hours(hours_c, MODELS.heat)
    best = MODELS.heat.optimum_c - MODELS.heat.base_c
    assert (heat >= 0).all()
    assert (heat <= best * np.count_nonzero(~np.isnan(hours_c), axis=1) + 1e-9).all()


def test_edges_that_do_not_rise_are_refused() -> None:
    with pytest.raises(ValueError, match="edges rise"):
        ChillClasses((2.0, 1.0), (0.0, 1.0, 0.0))
