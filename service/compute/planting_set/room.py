"""Room as rows of the program: what surely cannot stand together is kept apart from the start, the rest as it shows.

Whether trees go in depends on their spacings alone, and a set of wider trees never goes in where one of narrower trees
does not. So every set that turned out too wide bars all sets that are as wide, tree for tree.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.compute.integer_program import Program
from service.compute.planting_set.order import Tree
from service.compute.planting_set.rows import Ground, in_rows

_ROUNDING = 1e-6
Chosen = Sequence[tuple[Tree, int]]


def always_fits(trees: Sequence[Tree], max_trees: int, ground: Ground) -> bool:
    """Whether any choice of trees goes in, since the widest ones do."""
    widest = sorted(map(spacing_of, trees), reverse=True)[:max_trees]
    return any(in_rows(widest, along, across) for along, across in ground.ways)


def spacing_of(tree: Tree) -> float:
    """The spacing of a tree that stands on a known plot."""
    if tree.spacing_ft is None:
        raise ValueError(f"{tree.id}: a tree of unknown spacing cannot be placed")
    return tree.spacing_ft


def keep_to_the_ground(program: Program, chosen: Chosen, ground: Ground) -> None:
    """Squares within the area, no more trees of a spacing than its grid holds, and no pair that is too wide."""
    area = {variable: spacing_of(tree) ** 2 for tree, variable in chosen}
    program.row(area, high=ground.width_ft * ground.depth_ft + _ROUNDING)
    spacings = sorted({spacing_of(tree) for tree, _ in chosen})
    for spacing in spacings:
        program.row(_at_least(chosen, spacing), high=ground.grid(spacing))
        too_wide = next((one for one in spacings if one + spacing > max(ground.width_ft, ground.depth_ft)), None)
        if too_wide is not None and too_wide < spacing:
            _keep_apart(program, chosen, wide=spacing, other=too_wide)


def _keep_apart(program: Program, chosen: Chosen, *, wide: float, other: float) -> None:
    for tree, variable in chosen:
        if other <= spacing_of(tree) < wide:
            program.row(_at_least(chosen, wide) | {variable: 1.0}, high=1)


def bar_as_wide(program: Program, chosen: Chosen, spacings_ft: Sequence[float]) -> None:
    """Bar every set that is as wide, tree for tree, as one that did not go in.

    A set is as wide if, for each spacing of the barred one, it has as many trees of that spacing or wider; at least
    one of these counts must therefore stay below.
    """
    barred = sorted(spacings_ft, reverse=True)
    below = []
    for spacing in sorted(set(barred)):
        count = sum(1 for one in barred if one >= spacing)
        trees = _at_least(chosen, spacing)
        below.append(program.variable())
        slack = float(max(0, len(trees) - count + 1))
        program.row(trees | {below[-1]: slack}, high=count - 1 + slack)
    program.row(dict.fromkeys(below, 1.0), low=1)


def _at_least(chosen: Chosen, spacing_ft: float) -> dict[int, float]:
    return {variable: 1.0 for tree, variable in chosen if spacing_of(tree) >= spacing_ft}
