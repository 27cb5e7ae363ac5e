"""Water, nitrogen and spring dates against published examples.

Evapotranspiration: FAO Irrigation and Drainage Paper 56, example 20 (Lyon) and its radiation as a published package
gives it, both seen; example 8 recalled. Crop coefficients: its table 12, seen as coded in published software. Gallons:
the worked sheet of a county adviser of the University of California and the acre-inch, both seen. Nitrogen: sheets of
the extension services of Maryland, Pennsylvania and Tennessee, seen.
"""

from __future__ import annotations

import math

import pytest

from service.compute.bioclimate import Away, Shifts, spring_shift_days
from service.compute.feeding import Rates, nitrogen, product_oz
from service.compute.water import Crown, gallons_a_day, hargreaves_mm, sun_above_mm
from service.reasoning.rulebook import Rulebook
from tests.published.weather_at_hand import models

MODEL = models().evapotranspiration
SQUARE_FEET_AN_ACRE = 43560


def limit(rulebook: Rulebook, name: str) -> float:
    return rulebook.limits[f"season.{name}"].value


def test_the_sun_above_the_air_at_lyon_in_july() -> None:
    assert sun_above_mm(45.72, 196, MODEL) == pytest.approx(16.5463, abs=0.0005)


def test_the_sun_above_the_air_in_the_south_in_september() -> None:
    """Example 8, recalled: 20° S on 3 September, 32.2 MJ on a square metre."""
    assert sun_above_mm(-20, 246, MODEL) / MODEL.mm_per_mj == pytest.approx(32.2, abs=0.05)


def test_reference_evapotranspiration_at_lyon_in_july() -> None:
    """Example 20: 14.8 to 26.6 °C come to 5.0 mm a day."""
    sun = sun_above_mm(45.72, 196, MODEL)
    assert hargreaves_mm(14.8, 26.6, sun_mm=sun, model=MODEL) == pytest.approx(5.0, abs=0.05)


@pytest.mark.parametrize(
    ("kind", "floor", "initial", "mid", "end"),
    [
        ("pome", "bare", 0.45, 0.95, 0.70),
        ("pome", "grass", 0.50, 1.20, 0.95),
        ("stone", "bare", 0.45, 0.90, 0.65),
        ("stone", "grass", 0.50, 1.15, 0.90),
    ],
)
def test_crop_coefficients_are_those_of_table_12(
    rulebook: Rulebook, kind: str, floor: str, initial: float, mid: float, end: float
) -> None:
    found = [limit(rulebook, f"water.{kind}_{floor}_{part}") for part in ("initial", "mid", "end")]
    assert found == [initial, mid, end]


def test_an_acre_inch_is_27154_gallons() -> None:
    one_acre = Crown(math.sqrt(SQUARE_FEET_AN_ACRE / (math.pi / 4)), efficiency=1.0)
    assert gallons_a_day(1.0, 1.0, one_acre) == pytest.approx(27154, abs=1)


def test_a_small_tree_under_drip_as_on_the_worked_sheet(rulebook: Rulebook) -> None:
    """Ten square feet of crown at 0.2 in a day: 1.25 gallons, times 2.5."""
    width = math.sqrt(10 / (math.pi / 4))
    assert gallons_a_day(0.2, 1.0, Crown(width, 1.0)) == pytest.approx(1.25, abs=0.01)
    times = limit(rulebook, "water.small_tree_times")
    assert gallons_a_day(0.2, 1.0, Crown(width, 1.0, times)) == pytest.approx(3.1, abs=0.05)


def test_nitrogen_by_age_ends_at_half_a_pound(rulebook: Rulebook) -> None:
    rates = Rates(a_year_oz=limit(rulebook, "nitrogen.a_year"), cap_oz=limit(rulebook, "nitrogen.cap"))
    amounts = [nitrogen(rates, age_years=age, trunk_in=None) for age in (2, 4, 5, 12)]
    assert [one.year_oz for one in amounts if one] == [3.2, 6.4, 8.0, 8.0]


def test_two_pounds_of_urea_hold_nearly_fifteen_ounces_of_nitrogen() -> None:
    """The University of California gives 2 lb of urea to a mature tree and counts 0.92 lb of nitrogen."""
    assert product_oz(0.92 * 16, percent=46) == pytest.approx(32)


def test_spring_moves_with_latitude_longitude_and_height(rulebook: Rulebook) -> None:
    """Four days for a degree of latitude, for five of longitude, and for 400 ft (1918, recalled)."""
    names = ("latitude_days", "longitude_days", "longitude_deg", "altitude_days", "altitude_ft")
    shifts = Shifts(*(limit(rulebook, f"shift.{name}") for name in names))
    away = (Away(north_deg=1), Away(east_deg=5), Away(higher_ft=400), Away(north_deg=-1, higher_ft=400))
    assert [spring_shift_days(one, shifts) for one in away] == [4, 4, 4, 0]
