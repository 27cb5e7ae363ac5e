"""What each measure allows: spacing along a branch, places where fruit sits, sections of wood, leaves, crown.

The lowest measure that applies decides. Fruit by section was published up to a certain thickness (`Reach`); a thicker
stem is not bound by it, while on a thinner one the measure is the cautious one and still holds.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from service.compute.crop_load.sections import crown_surface_m2, diameter_of_girth, section_cm2
from service.domain.crop_load import Branch, TreeSize

Measure = Literal["spacing", "places", "branch_section", "leaves", "trunk_section", "canopy", "tree_cap"]
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Bound:
    """How many fruit one measure allows."""

    by: Measure
    fruit: int


@dataclass(frozen=True, slots=True)
class Targets:
    """What the rules ask of a tree; None where they ask nothing. `load_share` is the part of a full crop it carries."""

    spacing_in: float | None = None
    fruit_per_cluster: float | None = None
    branch_density: float | None = None
    leaves_per_fruit: float | None = None
    trunk_density: float | None = None
    young_density: float | None = None
    canopy_density: float | None = None
    tree_cap: float | None = None
    load_share: float | None = None


@dataclass(frozen=True, slots=True)
class Reach:
    """The thickest branch and trunk, in inches, for which fruit by section was published."""

    branch_in: float
    trunk_in: float


def by_spacing(length_in: float, spacing_in: float) -> int:
    """Fruit on a branch at one for each stretch of the spacing, and one on a shorter branch.

    A peach branch of 36 in at 6 in (MARINI_2003, USU_THIN_2013):

    >>> by_spacing(36, 6), by_spacing(3, 6)
    (6, 1)
    """
    return max(1, math.floor(length_in / spacing_in + _ROUNDING))


def by_section(diameter_in: float, per_cm2: float) -> int:
    """Fruit for the cross-section of a stem, to the nearest fruit.

    An apple limb of 12 mm at 6 to the cm² (KON_SCHUPP_2013), a trunk of 2 in at 6 and at 4 (UMASS_CROPLOAD):

    >>> by_section(12 / 25.4, 6), by_section(2, 6), by_section(2, 4)
    (7, 122, 81)
    """
    return math.floor(section_cm2(diameter_in) * per_cm2 + 0.5)


def by_leaves(leaves: int, leaves_per_fruit: float) -> int:
    """Fruit that the leaves feed: apple at 40 leaves each (HALLER_MAGNESS_1933, recalled).

    >>> by_leaves(200, 40)
    5
    """
    return math.floor(leaves / leaves_per_fruit + _ROUNDING)


def branch_bounds(branch: Branch, targets: Targets, reach: Reach) -> tuple[Bound, ...]:
    """Every measure that applies to one branch, in the share of a full crop that the tree carries."""
    return tuple(_scaled(bound, targets.load_share) for bound in _of_branch(branch, targets, reach))


def _of_branch(branch: Branch, targets: Targets, reach: Reach) -> Iterator[Bound]:
    if branch.length_in and targets.spacing_in:
        yield Bound("spacing", by_spacing(branch.length_in, targets.spacing_in))
    if branch.places is not None and targets.fruit_per_cluster is not None:
        yield Bound("places", math.floor(branch.places * targets.fruit_per_cluster))
    if branch.diameter_in and targets.branch_density is not None and branch.diameter_in <= reach.branch_in:
        yield Bound("branch_section", by_section(branch.diameter_in, targets.branch_density))
    if branch.leaves is not None and targets.leaves_per_fruit:
        yield Bound("leaves", by_leaves(branch.leaves, targets.leaves_per_fruit))


def tree_bounds(tree: TreeSize, targets: Targets, reach: Reach) -> tuple[Bound, ...]:
    """Every measure that applies to the whole tree; a cap for age or height stands as it is."""
    bounds = [_scaled(bound, targets.load_share) for bound in _of_tree(tree, targets, reach)]
    if targets.tree_cap is not None:
        bounds.append(Bound("tree_cap", math.floor(targets.tree_cap)))
    return tuple(bounds)


def _of_tree(tree: TreeSize, targets: Targets, reach: Reach) -> Iterator[Bound]:
    densities = [each for each in (targets.trunk_density, targets.young_density) if each is not None]
    if tree.trunk_girth_in and densities:
        diameter = diameter_of_girth(tree.trunk_girth_in)
        if diameter <= reach.trunk_in:
            yield Bound("trunk_section", by_section(diameter, min(densities)))
    crown_ft = crown_height_ft(tree)
    if crown_ft and tree.spread_ft and targets.canopy_density is not None:
        surface = crown_surface_m2(crown_ft, tree.spread_ft)
        yield Bound("canopy", math.floor(surface * targets.canopy_density + 0.5))


def crown_height_ft(tree: TreeSize) -> float | None:
    """From the lowest branch to the top; None where either is unknown.

    >>> crown_height_ft(TreeSize(height_ft=10.0, lowest_branch_ft=2.0))
    8.0
    """
    if tree.height_ft is None or tree.lowest_branch_ft is None:
        return None
    return tree.height_ft - tree.lowest_branch_ft


def _scaled(bound: Bound, share: float | None) -> Bound:
    return bound if share is None else Bound(bound.by, math.floor(bound.fruit * share + 0.5))


def lowest(bounds: Iterable[Bound]) -> Bound | None:
    """The measure that allows least and so decides; of equals the first.

    >>> lowest([Bound("spacing", 6), Bound("branch_section", 4)])
    Bound(by='branch_section', fruit=4)
    """
    return min(bounds, key=lambda bound: bound.fruit, default=None)
