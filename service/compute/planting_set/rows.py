"""Room for trees of different spacings: they stand in rows, each row as deep as the widest tree in it.

Every tree has a square of its own, as wide as its spacing. The squares of a row lie side by side along the plot, and
the rows lie one behind the other, along the width or along the depth. With less than half a spacing kept to the edge,
the outermost squares hang over it by the rest; the overhang of the smallest tree on offer is allowed to all, so mixed
rows are never too tight.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from service.compute.planting_set.order import Plot

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Ground:
    """The width and depth in feet that the squares of trees may take up."""

    width_ft: float
    depth_ft: float

    @property
    def ways(self) -> tuple[tuple[float, float], ...]:
        """The length of a row and the room behind it, for rows along the width and along the depth."""
        both = ((self.width_ft, self.depth_ft), (self.depth_ft, self.width_ft))
        return both[:1] if self.width_ft == self.depth_ft else both

    def grid(self, spacing_ft: float) -> int:
        """How many trees of one spacing, or of wider ones, can stand here at the most.

        >>> Ground(30, 20).grid(9)
        6
        """
        return math.floor(self.width_ft / spacing_ft + _ROUNDING) * math.floor(self.depth_ft / spacing_ft + _ROUNDING)

    def tightest(self, spacings_ft: Sequence[float]) -> tuple[float, ...]:
        """The trees, out of some that cannot all stand here, that already cannot stand here by themselves."""
        kept = sorted(spacings_ft)
        for spacing_ft in tuple(kept):
            fewer = list(kept)
            fewer.remove(spacing_ft)
            if not self.holds(fewer):
                kept = fewer
        return tuple(kept)

    def holds(self, spacings_ft: Sequence[float]) -> bool:
        """Whether trees of these spacings can all stand here: tried out the quick way, then searched in full."""
        if any(in_rows(spacings_ft, along, across) for along, across in self.ways):
            return True
        return any(_placing_exists(spacings_ft, along, across) for along, across in self.ways)


def ground(plot: Plot, smallest_ft: float) -> Ground:
    """The ground of a plot, with the overhang that its edge allows.

    >>> ground(Plot(30, 20, edge_share=0.25), 10)
    Ground(width_ft=35.0, depth_ft=25.0)
    """
    overhang_ft = (1 - 2 * plot.edge_share) * smallest_ft
    return Ground(plot.width_ft + overhang_ft, plot.depth_ft + overhang_ft)


def in_rows(spacings_ft: Sequence[float], along_ft: float, across_ft: float) -> bool:
    """Whether trees go in when each, the widest first, takes the first row with room.

    >>> in_rows([12, 12, 8], 24, 20), in_rows([12, 12, 12], 24, 20)
    (True, False)
    """
    rows_ft: list[float] = []
    deep_ft = 0.0
    for spacing_ft in sorted(spacings_ft, reverse=True):
        if spacing_ft > along_ft + _ROUNDING:
            return False
        place = next((row for row, used in enumerate(rows_ft) if used + spacing_ft <= along_ft + _ROUNDING), None)
        if place is not None:
            rows_ft[place] += spacing_ft
            continue
        rows_ft.append(spacing_ft)
        deep_ft += spacing_ft
        if deep_ft > across_ft + _ROUNDING:
            return False
    return True


def _placing_exists(spacings_ft: Sequence[float], along_ft: float, across_ft: float) -> bool:
    """Whether any placing at all goes in: each tree, the widest first, is tried in every row and in a new one."""
    trees = sorted(spacings_ft, reverse=True)

    @cache
    def goes_in(tree: int, rows_left_ft: tuple[float, ...], depth_left_ft: float) -> bool:
        if tree == len(trees):
            return True
        spacing_ft = trees[tree]
        for row, left_ft in enumerate(rows_left_ft):
            if spacing_ft <= left_ft and left_ft not in rows_left_ft[:row]:
                rest = (*rows_left_ft[:row], left_ft - spacing_ft, *rows_left_ft[row + 1 :])
                if goes_in(tree + 1, tuple(sorted(rest)), depth_left_ft):
                    return True
        if spacing_ft > min(along_ft + _ROUNDING, depth_left_ft):
            return False
        rows = tuple(sorted((*rows_left_ft, along_ft + _ROUNDING - spacing_ft)))
        return goes_in(tree + 1, rows, depth_left_ft - spacing_ft)

    return goes_in(0, (), across_ft + _ROUNDING)
