"""The chill portions of many winters side by side are those of each, hour by hour, as the papers state them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.compute.dynamic_model import chill_portions
from service.domain.weather import Floats
from tests.published.weather_at_hand import models

MODEL = models().portions


def hour_by_hour(hours_c: Floats) -> float:
    """The Dynamic Model as its papers state it, one hour after the other."""
    intermediate = portions = 0.0
    for temp_c in hours_c[~np.isnan(hours_c)]:
        kelvin = temp_c + MODEL.kelvin_offset
        level = MODEL.a0_per_h / MODEL.a1_per_h * math.exp((MODEL.e1_k - MODEL.e0_k) / kelvin)
        rate = MODEL.a1_per_h * math.exp(-MODEL.e1_k / kelvin)
        intermediate = level - (level - intermediate) * math.exp(-rate)
        if intermediate >= 1:
            odds = math.exp(MODEL.slope * MODEL.transition_k * (kelvin - MODEL.transition_k) / kelvin)
            fixed = odds / (1 + odds) * intermediate
            portions, intermediate = portions + fixed, intermediate - fixed
    return portions


def winter(seed: int, *, mean_c: float, hours: int = 2880) -> Floats:
    """Hours with a daily wave, spells of several days and noise."""
    rng = np.random.default_rng(seed)
    hour = np.arange(hours)
    spells = np.repeat(rng.normal(0, 4, hours // 72 + 1), 72)[:hours]
    wave: Floats = mean_c + 6 * np.sin(2 * np.pi * hour / 24) + spells + rng.normal(0, 1, hours)
    return wave


@pytest.mark.parametrize("mean_c", [-25, -12, -5, -1, 1, 3, 5, 8, 11, 14, 20])
def test_cold_and_mild_winters_come_out_as_hour_by_hour(mean_c: float) -> None:
    rows = np.stack([winter(seed, mean_c=mean_c) for seed in range(3)])
    expected = [hour_by_hour(row) for row in rows]
    assert chill_portions(rows, MODEL) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@given(st.lists(st.floats(-40, 45) | st.just(math.nan), min_size=1, max_size=500))
@settings(max_examples=60, deadline=None)
def test_any_hours_come_out_as_hour_by_hour(hours: list[float]) -> None:
    row = np.array(hours)
    assert chill_portions(row[None, :], MODEL)[0] == pytest.approx(hour_by_hour(row), rel=1e-9, abs=1e-9)


def test_a_constant_temperature_comes_out_as_hour_by_hour() -> None:
    row = np.full(3000, 7.0)
    assert chill_portions(row[None, :], MODEL)[0] == pytest.approx(hour_by_hour(row), rel=1e-9)


def test_a_winter_does_not_depend_on_the_winters_beside_it() -> None:
    rows = np.stack([winter(seed, mean_c=mean_c) for seed, mean_c in enumerate((-5.0, 4.0, 12.0))])
    alone = [chill_portions(row[None, :], MODEL)[0] for row in rows]
    assert chill_portions(rows, MODEL) == pytest.approx(alone, rel=1e-12)


def test_an_hour_not_read_leaves_everything_as_it_was() -> None:
    row = winter(1, mean_c=5.0)
    holed = np.insert(row, [100, 700, 701, 2000], np.nan)
    assert chill_portions(holed[None, :], MODEL)[0] == pytest.approx(chill_portions(row[None, :], MODEL)[0], rel=1e-12)


def test_no_winter_gives_no_figure_and_an_unread_one_gives_none() -> None:
    assert chill_portions(np.empty((0, 0)), MODEL).size == 0
    assert chill_portions(np.full((1, 50), np.nan), MODEL)[0] == 0.0
