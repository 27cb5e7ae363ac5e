"""Sizes, heights and distances of trees on roots, against what is published; ids are those of rules/sources.yaml."""

from __future__ import annotations

import pytest

from service.compute.size_control import mature_height, share_of
from service.compute.spacing import SizeLimits, size_class, spacing_for
from service.domain.provenance import Span
from service.domain.rootstock import Rootstock
from service.reasoning.rulebook import Rulebook


def named(rulebook: Rulebook, name: str) -> Rootstock:
    """The root of that name."""
    return next(root for root in rulebook.catalogue.rootstocks.values() if root.name == name)


def limits(rulebook: Rulebook) -> SizeLimits:
    """The size classes of the rulebook."""
    dwarf, semi_dwarf = (
        rulebook.limits[f"spacing.{size}_below_percent"].value for size in ("dwarf", "semi_dwarf")
    )
    return SizeLimits(dwarf, semi_dwarf)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [  # psu-apple-roots, from memory
        ("M.27", 15, 25),
        ("M.9", 30, 35),
        ("B.9", 25, 35),
        ("M.26", 40, 50),
        ("M.7", 60, 70),
        ("MM.111", 85, 100),
        # elkins-2012, from memory; gfg-long-cherry
        ("OHxF 87", 70, 80),
        ("Quince A", 50, 60),
        ("Colt", 90, 100),
    ],
)
def test_sizes_in_percent_of_a_seedling_rooted_tree(rulebook: Rulebook, name: str, low: float, high: float) -> None:
    size = named(rulebook, name).size_percent
    assert size is not None
    assert (size.value.low, size.value.high) == (low, high)


@pytest.mark.parametrize(
    ("name", "expected"),
    [  # the lists of dwarfing, semi-dwarfing and standard roots on apples.extension.org (ext-apple-size, ext-rootinfo)
        ("M.27", "dwarf"),
        ("M.9", "dwarf"),
        ("B.9", "dwarf"),
        ("G.41", "dwarf"),
        ("G.16", "dwarf"),
        ("G.935", "dwarf"),
        ("M.7", "semi_dwarf"),
        ("MM.106", "semi_dwarf"),
        ("G.210", "semi_dwarf"),
        ("G.890", "semi_dwarf"),
        ("MM.111", "standard"),
        ("Antonovka seedling", "standard"),
    ],
)
def test_apple_roots_fall_into_the_published_class(rulebook: Rulebook, name: str, expected: str) -> None:
    assert size_class(named(rulebook, name), limits(rulebook)) == expected


def test_shares_of_a_standard_tree_give_the_published_heights() -> None:
    """ext-apple-size: 60-90 % of a standard tree of about 24 ft in an orchard is about 14 to 22 ft."""
    height = share_of(Span(24, 24), Span(60, 90))
    assert height.low == pytest.approx(14, abs=0.5)
    assert height.high == pytest.approx(22, abs=0.5)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("B.9", 6, 10), ("G.202", 12, 14), ("M.7", 14, 16), ("MM.111", 15, 25)],  # nc-hornecreek
)
def test_heights_of_apples_by_root(rulebook: Rulebook, name: str, low: float, high: float) -> None:
    height = mature_height(rulebook.catalogue.crops["apple"], named(rulebook, name))
    assert height is not None
    assert (height.span_ft, height.basis) == (Span(low, high), "rootstock")
    assert "nc-hornecreek" in height.sources


@pytest.mark.parametrize(("name", "feet"), [("B.9", 5), ("G.202", 9), ("M.7", 12), ("MM.111", 18)])  # nc-hornecreek
def test_distances_of_apples_by_root(rulebook: Rulebook, name: str, feet: float) -> None:
    spacing = spacing_for(rulebook.catalogue.crops["apple"], named(rulebook, name), limits(rulebook))
    assert spacing is not None
    assert (spacing.ft, spacing.basis) == (feet, "rootstock")


def test_no_root_of_the_catalogue_stands_closer_than_its_smaller_class(rulebook: Rulebook) -> None:
    """Within a crop, distances taken from size classes never shrink as the tree grows."""
    for crop in rulebook.catalogue.crops.values():
        told = [crop.spacing_ft[size].value.middle for size in ("dwarf", "semi_dwarf", "standard")
                if size in crop.spacing_ft]  # fmt: skip
        assert told == sorted(told), crop.id
