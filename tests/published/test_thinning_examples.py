"""Thinning against published figures: extension tables and trials by the ids of rules/sources.yaml.

What was taken from a source that nobody opened is marked recalled. Common practice that no publication stands behind is
marked so.
"""

from __future__ import annotations

import math

import pytest

from service.compute.crop_load import Bound, Part, Reach, Targets, branch_bounds, carry, tree_bounds
from service.compute.crop_load.bounds import by_leaves, by_section, by_spacing
from service.compute.crop_load.sections import crown_surface_m2, section_cm2
from service.domain.crop_load import Branch, Load, TreeSize
from service.reasoning.rulebook import Rulebook

MM_PER_INCH = 25.4
CM_PER_INCH = 2.54
REACH = Reach(branch_in=1.1, trunk_in=3)

# The table of UMASS_CROPLOAD: trunk diameter in inches, section in cm², fruit on alternate and on annual bearers.
TRUNKS = [
    (0.75, 2.9, 11, 17), (1.0, 5.1, 20, 30), (1.25, 7.9, 32, 48), (1.5, 11.4, 46, 68), (1.75, 15.5, 62, 93),
    (2.0, 20.3, 81, 122), (2.25, 25.7, 103, 154), (2.5, 31.7, 127, 190), (2.75, 38.3, 153, 230), (3.0, 45.6, 182, 274),
]  # fmt: skip


def number(rulebook: Rulebook, limit: str) -> float:
    return rulebook.limits[f"thinning.{limit}"].value


@pytest.mark.parametrize(("diameter_in", "cm2", "alternate", "annual"), TRUNKS)
def test_the_trunk_table_of_apple(
    rulebook: Rulebook, diameter_in: float, cm2: float, alternate: int, annual: int
) -> None:
    assert section_cm2(diameter_in) == pytest.approx(cm2, abs=0.051)
    for density, fruit in (("apple.alternate.trunk_density", alternate), ("apple.trunk_density", annual)):
        assert by_section(diameter_in, number(rulebook, density)) == pytest.approx(fruit, abs=1)


def test_a_trunk_of_16_cm_girth_keeps_122_or_81(rulebook: Rulebook) -> None:
    """UMASS_CROPLOAD: the published trunk of 2 in has 20.3 cm²."""
    tree = TreeSize(trunk_girth_in=16.0 / CM_PER_INCH)
    for density, fruit in ((number(rulebook, "apple.trunk_density"), 122),
                           (number(rulebook, "apple.alternate.trunk_density"), 81)):  # fmt: skip
        assert tree_bounds(tree, Targets(trunk_density=density), REACH) == (Bound("trunk_section", fruit),)


def test_a_second_year_apple_of_three_quarters_of_an_inch_keeps_six(rulebook: Rulebook) -> None:
    """UMASS_CROPLOAD gives 11 to 17 at full density; the density for the second summer is derived from it."""
    tree = TreeSize(age_years=2, trunk_girth_in=0.75 * math.pi)
    young = Targets(trunk_density=number(rulebook, "apple.trunk_density"),
                    young_density=number(rulebook, "young.second_year_density"))  # fmt: skip
    assert tree_bounds(tree, young, REACH) == (Bound("trunk_section", 6),)


def test_a_peach_branch_of_a_yard_keeps_six_of_forty_eight(rulebook: Rulebook) -> None:
    """MARINI_2003 and USU_THIN_2013: 36 in at 6 in; 88 percent come off."""
    targets = Targets(spacing_in=number(rulebook, "peach.spacing"))
    (load,) = carry(TreeSize(), [Part(Load((Branch(length_in=36, fruit=48),)), targets)], REACH)
    assert (load.keep, load.remove) == (6, 42)
    assert load.remove is not None
    assert load.remove / 48 == pytest.approx(0.88, abs=0.0051)


@pytest.mark.parametrize(
    ("diameter_mm", "density", "fruit"),
    [(12, "apple.branch_density", 7), (20, "apple.alternate.trunk_density", 13)],
)
def test_apple_limbs_by_section(rulebook: Rulebook, diameter_mm: float, density: str, fruit: int) -> None:
    """KON_SCHUPP_2013: 6 fruit to the cm² of limb; the alternate bearer at 4 as in UMASS_CROPLOAD."""
    targets = Targets(branch_density=number(rulebook, density))
    assert branch_bounds(Branch(diameter_in=diameter_mm / MM_PER_INCH), targets, REACH) == (
        Bound("branch_section", fruit),
    )


def test_two_hundred_leaves_of_apple_feed_five(rulebook: Rulebook) -> None:
    """HALLER_MAGNESS_1933, recalled: about 40 leaves for each fruit."""
    assert by_leaves(200, number(rulebook, "apple.leaves_per_fruit")) == 5


def test_a_persimmon_crown_of_eight_feet_keeps_about_a_hundred(rulebook: Rulebook) -> None:
    """COLLINS_GEORGE_1997: 10 fruit to the m² of crown surface (5 to 15); the cone is our own way of measuring it."""
    surface = crown_surface_m2(8, 8)
    limit = rulebook.limits["thinning.persimmon.canopy_density"]
    assert surface == pytest.approx(10.4, abs=0.05)
    assert [round(surface * density) for density in (limit.low, limit.value, limit.high)] == pytest.approx(
        [52, 104, 157], abs=1
    )


def test_ranges_of_spacing_hold_what_the_sources_print(rulebook: Rulebook) -> None:
    """Apple 4 (KSU_THIN) to 10 in (ISU_HANDTHIN); peach 3 (UCMG_SCL_THIN) to 10 in (OSU_THIN_NEWS)."""
    for crop, low, high in (("apple", 4, 10), ("peach", 3, 10), ("japanese_plum", 2, 6), ("apricot", 2, 6)):
        limit = rulebook.limits[f"thinning.{crop}.spacing"]
        assert (limit.low, limit.high) == (low, high)


# --- common practice, without a publication ---------------------------------------------------------------------------


def test_an_overset_young_plum_loses_about_four_in_five(rulebook: Rulebook) -> None:
    """Common practice: a fruit at nearly every node, about 5 to the foot in pairs and threes, thinned to 4 to 6 in."""
    branches = tuple(Branch(length_in=length, fruit=fruit) for length, fruit in ((24, 32), (30, 40), (18, 20)))
    targets = Targets(spacing_in=number(rulebook, "japanese_plum.large.spacing"))
    (load,) = carry(TreeSize(age_years=4), [Part(Load(branches), targets)], REACH)
    assert load.remove is not None
    assert load.remove / 92 == pytest.approx(0.8, abs=0.08)


@pytest.mark.parametrize(("spacing_in", "fruit"), [(8, 6), (12, 4)])
def test_early_peaches_at_eight_to_twelve_inches_keep_four_to_six_on_four_feet(spacing_in: float, fruit: int) -> None:
    """Common practice for early peaches."""
    assert by_spacing(48, spacing_in) == fruit


@pytest.mark.parametrize(("spacing_in", "fruit"), [(4, 9), (6, 6)])
def test_plums_at_one_fruit_to_four_to_six_inches(spacing_in: float, fruit: int) -> None:
    """Common practice for plums: a branch of a yard keeps 6 to 9."""
    assert by_spacing(36, spacing_in) == fruit


def test_pome_fruit_keep_one_to_a_cluster(rulebook: Rulebook) -> None:
    """Common practice, and UCIPM_APPLE_THIN: eight clusters of five keep eight."""
    for crop in ("apple", "european_pear", "asian_pear"):
        targets = Targets(fruit_per_cluster=number(rulebook, f"{crop}.fruit_per_cluster"))
        (load,) = carry(TreeSize(), [Part(Load((Branch(fruit=40, places=8),)), targets)], REACH)
        assert (load.keep, load.remove) == (8, 32)
