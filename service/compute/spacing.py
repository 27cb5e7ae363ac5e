"""How far apart trees of a crop stand on a root, and how many of them a plot holds.

The distance stated for the root comes first, then the one that the crop has for trees of the root's size class. Where
nobody states either, the distance of standard trees is scaled by the size of the root, since trees stand about as far
apart as they grow wide (common practice; the basis says so), and where the size of the root is unknown it stands as it
is.

Trees stand in rows as far apart as trees in the row. `edge_share` says how much of the spacing a tree keeps to the
edge of the plot: one half keeps the whole crown inside.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from service.domain.crop import Crop, TreeSize
from service.domain.provenance import Span, Stated
from service.domain.rootstock import Rootstock

SpacingBasis = Literal["rootstock", "size_class", "share_of_standard", "crop"]
PERCENT = 100
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class SizeLimits:
    """Tree sizes in percent of a seedling-rooted tree below which a tree counts as dwarf, or as semi-dwarf."""

    dwarf_below_percent: float
    semi_dwarf_below_percent: float


@dataclass(frozen=True, slots=True)
class Spacing:
    """A distance between trees in feet, what it rests on, and who says so."""

    span_ft: Span
    basis: SpacingBasis
    sources: tuple[str, ...]
    from_memory: bool

    @property
    def ft(self) -> float:
        """The distance to plan with: the middle of what is stated."""
        return self.span_ft.middle


def size_class(root: Rootstock, limits: SizeLimits) -> TreeSize | None:
    """The size class of trees on a root, by the middle of its size; None where its size is unknown."""
    if root.size_percent is None:
        return None
    percent = root.size_percent.value.middle
    if percent < limits.dwarf_below_percent:
        return "dwarf"
    return "semi_dwarf" if percent < limits.semi_dwarf_below_percent else "standard"


def spacing_for(crop: Crop, root: Rootstock | None, limits: SizeLimits) -> Spacing | None:
    """The distance between trees of a crop on a root, or of the crop's standard trees where the root is unknown."""
    if root is None:
        return _spacing(crop.spacing_ft.get("standard"), "crop")
    if root.spacing_ft is not None:
        return _spacing(root.spacing_ft, "rootstock")
    size, standard = size_class(root, limits), crop.spacing_ft.get("standard")
    if size is not None and size in crop.spacing_ft:
        return _spacing(crop.spacing_ft[size], "size_class")
    if root.size_percent is None:
        return _spacing(standard, "crop")
    return None if standard is None else _scaled(standard, root.size_percent)


def _scaled(standard: Stated[Span], percent: Stated[Span]) -> Spacing:
    """Half the size, half the distance; to whole half feet, since nobody plants to the inch."""
    ft = round(2 * standard.value.middle * percent.value.middle / PERCENT) / 2
    sources = tuple(dict.fromkeys((*standard.sources, *percent.sources)))
    return Spacing(Span(ft, ft), "share_of_standard", sources, standard.from_memory or percent.from_memory)


def _spacing(stated: Stated[Span] | None, basis: SpacingBasis) -> Spacing | None:
    return None if stated is None else Spacing(stated.value, basis, stated.sources, stated.from_memory)


def trees_along(length_ft: float, spacing_ft: float, edge_share: float) -> int:
    """How many trees stand in one line.

    Two trees at 12 ft on 24 ft with half a spacing to each edge; three if they may stand at the very edge:

    >>> trees_along(24, 12, 0.5), trees_along(24, 12, 0), trees_along(11, 12, 0.5)
    (2, 3, 0)
    """
    inner_ft = length_ft - 2 * edge_share * spacing_ft
    return max(0, math.floor(inner_ft / spacing_ft + 1 + _ROUNDING)) if inner_ft > -_ROUNDING else 0


def fits_square(width_ft: float, depth_ft: float, *, spacing_ft: float, edge_share: float) -> int:
    """How many trees a plot holds in rows that face each other.

    >>> fits_square(36, 24, spacing_ft=12, edge_share=0.5)
    6
    """
    return trees_along(width_ft, spacing_ft, edge_share) * trees_along(depth_ft, spacing_ft, edge_share)


def fits_staggered(width_ft: float, depth_ft: float, *, spacing_ft: float, edge_share: float) -> int:
    """How many trees a plot holds when each row stands in the gaps of the one before it, the better way round.

    Every tree keeps the full spacing to its neighbours, so rows move together to sin 60° of the spacing.

    >>> fits_staggered(40, 42, spacing_ft=10, edge_share=0.5), fits_square(40, 42, spacing_ft=10, edge_share=0.5)
    (14, 16)
    >>> fits_staggered(25, 63, spacing_ft=10, edge_share=0.5), fits_square(25, 63, spacing_ft=10, edge_share=0.5)
    (14, 12)
    """
    ways = ((width_ft, depth_ft), (depth_ft, width_ft))
    return max(_staggered(along, across, spacing_ft, edge_share) for along, across in ways)


def _staggered(along_ft: float, across_ft: float, spacing_ft: float, edge_share: float) -> int:
    full = trees_along(along_ft, spacing_ft, edge_share)
    shifted = trees_along(along_ft - spacing_ft / 2, spacing_ft, edge_share)
    inner_ft = across_ft - 2 * edge_share * spacing_ft
    if inner_ft < -_ROUNDING or full == 0:
        return 0
    rows = math.floor(inner_ft / (spacing_ft * math.sin(math.pi / 3)) + 1 + _ROUNDING)
    return full * math.ceil(rows / 2) + shifted * (rows // 2)


def fits(width_ft: float, depth_ft: float, *, spacing_ft: float, edge_share: float) -> int:
    """How many trees a plot holds, in whichever layout holds more."""
    square = fits_square(width_ft, depth_ft, spacing_ft=spacing_ft, edge_share=edge_share)
    return max(square, fits_staggered(width_ft, depth_ft, spacing_ft=spacing_ft, edge_share=edge_share))
