"""Room for trees of different spacings: they stand in rows, each row as deep as the widest tree in it.

Every tree has a square of its own, as wide as its spacing. The squares of a row lie side by side along the plot, and
the rows lie one behind the other. With less than half a spacing kept to the edge, the outermost squares hang over it
by the rest; the overhang of the smallest tree on offer is allowed to all, so mixed rows are never too tight.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from service.compute.planting_set.order import Plot, Tree
from service.compute.planting_set.program import Program

_ROUNDING = 1e-9


def room(plot: Plot, smallest_ft: float) -> tuple[float, float]:
    """The width and depth that the squares of trees may take up.

    >>> room(Plot(30, 20, edge_share=0.25), 10)
    (35.0, 25.0)
    """
    overhang_ft = (1 - 2 * plot.edge_share) * smallest_ft
    return plot.width_ft + overhang_ft, plot.depth_ft + overhang_ft


def in_rows(spacings_ft: Sequence[float], width_ft: float, depth_ft: float) -> list[list[int]] | None:
    """Places trees in rows, widest first, each in the first row with room; None where they do not all go in.

    >>> in_rows([12, 12, 8], 24, 20)
    [[0, 1], [2]]
    >>> in_rows([12, 12, 12], 24, 20) is None
    True
    """
    rows: list[list[int]] = []
    used_ft: list[float] = []
    deep_ft = 0.0
    for tree in sorted(range(len(spacings_ft)), key=lambda number: -spacings_ft[number]):
        wide_ft = spacings_ft[tree]
        place = next((row for row, used in enumerate(used_ft) if used + wide_ft <= width_ft + _ROUNDING), None)
        if place is not None:
            rows[place].append(tree)
            used_ft[place] += wide_ft
            continue
        deep_ft += wide_ft
        if deep_ft > depth_ft + _ROUNDING or wide_ft > width_ft + _ROUNDING:
            return None
        rows.append([tree])
        used_ft.append(wide_ft)
    return rows


def always_fit(trees: Sequence[Tree], max_trees: int, *, width_ft: float, depth_ft: float) -> bool:
    """Whether any choice of trees goes in, since the widest ones do."""
    widest = sorted((tree.spacing_ft or 0.0 for tree in trees), reverse=True)[:max_trees]
    return in_rows(widest, width_ft, depth_ft) is not None


def keep_within(
    program: Program, chosen: Sequence[tuple[Tree, int]], max_trees: int, *, width_ft: float, depth_ft: float
) -> None:
    """Add the rows to a program: the trees chosen of each spacing are those that stand in the rows."""
    by_spacing: dict[float, list[int]] = defaultdict(list)
    for tree, variable in chosen:
        by_spacing[tree.spacing_ft or 0.0].append(variable)
    offered = {spacing: len(by_spacing[spacing]) for spacing in sorted(by_spacing)}
    rows = range(min(max_trees, math.floor(depth_ft / min(offered) + _ROUNDING)))
    planted: dict[float, dict[int, float]] = {spacing: {} for spacing in offered}
    depths: dict[int, float] = {}
    before: dict[int, float] | None = None
    for _ in rows:
        deep = {program.variable(): depth for depth in offered}
        _add_row(program, deep, offered, planted, width_ft=width_ft)
        if before is not None:
            _shallower(program, deep, before)
        depths |= deep
        before = deep
    program.row(depths, high=depth_ft + _ROUNDING)
    for spacing, counts in planted.items():
        program.row(dict.fromkeys(by_spacing[spacing], 1.0) | counts, low=0, high=0)


def _add_row(
    program: Program,
    deep: Mapping[int, float],
    offered: Mapping[float, int],
    planted: Mapping[float, dict[int, float]],
    *,
    width_ft: float,
) -> None:
    """One row: at most one depth, no tree wider than that depth, and the squares side by side within the width."""
    program.row(dict.fromkeys(deep, 1.0), high=1)
    side_by_side: dict[int, float] = {}
    for spacing, trees in offered.items():
        most = min(trees, math.floor(width_ft / spacing + _ROUNDING))
        count = program.variable(upper=most)
        deep_enough = {variable: -float(most) for variable, depth in deep.items() if depth >= spacing}
        program.row({count: 1.0} | deep_enough, high=0)
        side_by_side[count] = spacing
        planted[spacing][count] = -1.0
    program.row(side_by_side, high=width_ft + _ROUNDING)


def _shallower(program: Program, deep: Mapping[int, float], before: Mapping[int, float]) -> None:
    """Rows are numbered from the deepest, since any other numbering is the same planting."""
    program.row(dict(before) | {variable: -depth for variable, depth in deep.items()}, low=0)
