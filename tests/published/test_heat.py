"""Heat against published curves and worked examples.

Growing degree hours: the asymmetric curve of Anderson, Richardson and Kesner (1986), values computed beforehand by two
independent programs. Degree days: closed forms checked beforehand by integrating 200,000 points of each curve; the
single examples are those of extension pages named beside them.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.compute.degree_days import degree_days, double_sine_degree_days, simple_degree_days
from service.compute.heat import growing_degree_hours
from tests.published.weather_at_hand import models, wave_c

HEAT = models().heat
THRESHOLDS_F = (50.0, 88.0)
DAYS_F = [  # lowest, highest; simple; sine and triangle without cutoff, horizontal, intermediate, vertical
    (45, 75, 10.0, [10.8816, 10.8816, 10.8816, 10.8816], [10.4167, 10.4167, 10.4167, 10.4167]),
    (40, 60, 0.0, [3.1831, 3.1831, 3.1831, 3.1831], [2.5, 2.5, 2.5, 2.5]),
    (55, 80, 17.5, [17.5, 17.5, 17.5, 17.5], [17.5, 17.5, 17.5, 17.5]),
    (60, 95, 27.5, [27.5, 26.1429, 24.7858, 14.9266], [27.5, 26.8, 26.1, 19.2]),
    (48, 100, 24.0, [24.1671, 21.6594, 19.1516, 9.5372], [24.0385, 22.6538, 21.2692, 13.8846]),
    (90, 104, 47.0, [47.0, 38.0, 29.0, 0.0], [47.0, 38.0, 29.0, 0.0]),
    (30, 49, 0.0, [0.0, 0.0, 0.0, 0.0], [0.0, 0.0, 0.0, 0.0]),
]
CUTOFFS = ("none", "horizontal", "intermediate", "vertical")


@pytest.mark.parametrize(
    ("temp_c", "heat"),
    [(5, 0.1173), (10, 3.9534), (15, 11.2847), (20, 18.197), (25, 21.0), (28, 12.2763), (30, 7.2479),
     (33, 1.8977), (36, 0.0), (3.9, 0.0), (40, 0.0)],
)  # fmt: skip
def test_the_heat_of_an_hour_follows_the_curve(temp_c: float, heat: float) -> None:
    assert growing_degree_hours(np.array([[float(temp_c)]]), HEAT)[0] == pytest.approx(heat, abs=6e-5)


def test_the_heat_of_a_sixty_day_sine() -> None:
    assert growing_degree_hours(wave_c(), HEAT)[0] == pytest.approx(5161.6391, abs=6e-5)


def test_thirty_days_at_15_c_hold_8125_degree_hours() -> None:
    assert growing_degree_hours(np.full((1, 720), 15.0), HEAT)[0] == pytest.approx(8125.0, abs=0.05)


@pytest.mark.parametrize(("low", "high", "simple", "sine", "triangle"), DAYS_F)
def test_degree_days_of_every_shape_and_cutoff(
    low: float, high: float, simple: float, sine: list[float], triangle: list[float]
) -> None:
    lows, highs = np.array([float(low)]), np.array([float(high)])
    assert simple_degree_days(lows, highs, THRESHOLDS_F[0])[0] == simple
    for cutoff, wave, tent in zip(CUTOFFS, sine, triangle, strict=True):
        assert degree_days((lows, highs), THRESHOLDS_F, cutoff=cutoff)[0] == pytest.approx(wave, abs=6e-5)
        found = degree_days((lows, highs), THRESHOLDS_F, shape="triangle", cutoff=cutoff)[0]
        assert found == pytest.approx(tent, abs=6e-5)


def test_two_half_days_of_sine_fall_to_the_next_morning() -> None:
    found = double_sine_degree_days((np.array([45.0]), np.array([75.0])), THRESHOLDS_F, next_low=np.array([52.0]))
    assert found[0] == pytest.approx(12.1908, abs=6e-5)


def test_worked_examples_of_extension_pages() -> None:
    """80/40 °F over 50 is 10 (Colorado State University Extension); a mean of 64 over 53 is 11 (UC IPM)."""
    assert simple_degree_days(np.array([40.0]), np.array([80.0]), 50.0)[0] == 10
    assert simple_degree_days(np.array([64.0]), np.array([64.0]), 53.0)[0] == 11
