"""Infection by wet weather against published tables and trials, by the ids of rules/sources.yaml."""

from __future__ import annotations

import pytest

from service.compute.infection import hours_needed, infected_by
from service.domain.infection import InfectionConditions
from service.domain.sick_tree import WetPeriod
from service.reasoning.rulebook import Rulebook


def conditions(rulebook: Rulebook, name: str) -> InfectionConditions:
    return rulebook.catalogue.diagnosis.infection[name]


def fahrenheit(celsius: float) -> float:
    return celsius * 1.8 + 32


@pytest.mark.parametrize(("mean_f", "hours"), [(50, 11), (34, 41), (68, 6), (45.5, 14)])
def test_hours_of_the_revised_mills_table(rulebook: Rulebook, mean_f: float, hours: float) -> None:
    """wvu_mills; the last row lies halfway between two of the table."""
    assert hours_needed(conditions(rulebook, "apple_scab_leaves"), mean_f) == pytest.approx(hours)


@pytest.mark.parametrize("mean_f", [33.9, 79.1])
def test_outside_the_mills_table_nothing_is_claimed(rulebook: Rulebook, mean_f: float) -> None:
    assert hours_needed(conditions(rulebook, "apple_scab_leaves"), mean_f) is None


@pytest.mark.parametrize(
    ("rain_mm", "hours", "mean_c", "infects"),
    [(5, 14, 10, True), (2, 20, 8, False), (8, 13, 16.5, False), (8, 12, 10, False), (None, 13, 10, True)],
)
def test_peach_shoots_in_the_rain(
    rulebook: Rulebook, rain_mm: float | None, hours: float, mean_c: float, infects: bool
) -> None:
    """rossi2006: 3 mm of rain, 12.5 hours of wetness, below 16 °C. Rain that nobody measured is not held against it."""
    rain_in = None if rain_mm is None else rain_mm / 25.4
    period = WetPeriod("green_tip", hours, fahrenheit(mean_c), rain_in)
    assert infected_by(period, conditions(rulebook, "peach_leaf_curl_shoots")) is infects


def test_leaf_curl_is_not_claimed_after_petal_fall(rulebook: Rulebook) -> None:
    """rossi2006: most from bud break to petal fall."""
    period = WetPeriod("shoot_growth", 20, 50, 1)
    assert not infected_by(period, conditions(rulebook, "peach_leaf_curl_shoots"))


@pytest.mark.parametrize(
    ("hours", "mean_c", "infects"), [(5, 20, True), (5, 16, False), (10, 12, True), (10, 8, False), (24, 8, True)]
)
def test_wet_blossom_of_sour_cherry(rulebook: Rulebook, hours: float, mean_c: float, infects: bool) -> None:
    """wilcox1989: blighted blossoms 72, 28, 78, 21 and 85 to 97 of 100; half of them is our line."""
    period = WetPeriod("bloom", hours, fahrenheit(mean_c))
    assert infected_by(period, conditions(rulebook, "brown_rot_blossom")) is infects


@pytest.mark.parametrize(("mean_f", "infects"), [(59.9, False), (60, True)])
def test_open_flowers_wetted_on_a_warm_day(rulebook: Rulebook, mean_f: float, infects: bool) -> None:
    """steiner1990: a daily mean of 60 °F is one of its four conditions, open flowers and wetting are two more."""
    assert infected_by(WetPeriod("bloom", 1, mean_f), conditions(rulebook, "fire_blight_blossom")) is infects
