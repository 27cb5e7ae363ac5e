"""Trees one by one into corners: each takes the best of the places at which it just touches two bounds.

A bound is an edge of the plot, or the circle that a tree keeps around another. What is best is a matter of order:
frontmost first, leftmost first, or farthest from the middle first.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from service.compute.plot_layout.ground import ROUNDING, Ground, Numbers, distances

Order = Literal["front", "left", "outside"]
ORDERS: tuple[Order, ...] = ("front", "left", "outside")
_SAME_FT = 6  # decimals within which two places count as equally good


def into_corners(ground: Ground, spacings: Numbers, order: Order) -> Numbers:
    """Places for as many of the trees as go in, one after the other; it ends at the first that does not."""
    there = ground.fixed
    places: list[Numbers] = []
    for spacing in spacings:
        free = _free(ground, float(spacing), there)
        if not len(free):
            break
        best = free[_best(ground, free, order)]
        places.append(best)
        there = np.vstack([there, [*best, spacing]])
    return np.array(places).reshape(-1, 2)


def roomiest(ground: Ground, spacing: float, there: Numbers) -> Numbers:
    """The place of a coarse grid that is least in the way of the trees there."""
    left, right, front, back = ground.box(spacing)
    x, y = np.meshgrid(np.linspace(left, right, _GRID), np.linspace(front, back, _GRID))
    grid = np.column_stack([x.ravel(), y.ravel()])
    clear = (distances(grid, there[:, :2]) - (there[:, 2] + spacing) / 2).min(axis=1, initial=np.inf)
    roomy: Numbers = grid[int(np.argmax(np.round(clear, _SAME_FT)))]
    return roomy


_GRID = 15


def _free(ground: Ground, spacing: float, there: Numbers) -> Numbers:
    """All places at which a tree touches two bounds and comes too near to none."""
    left, right, front, back = box = ground.box(spacing)
    if left > right + ROUNDING or front > back + ROUNDING:
        return np.empty((0, 2))
    reach = (there[:, 2] + spacing) / 2
    points = np.vstack([
        [(x, y) for y in (front, back) for x in (left, right)],
        _on_edges(there, reach, box),
        _between(there, reach),
    ])  # fmt: skip
    inside = (points[:, 0] >= left - ROUNDING) & (points[:, 0] <= right + ROUNDING)
    inside &= (points[:, 1] >= front - ROUNDING) & (points[:, 1] <= back + ROUNDING)
    points = points[inside]
    return points[(distances(points, there[:, :2]) >= reach - ROUNDING).all(axis=1)]


def _on_edges(there: Numbers, reach: Numbers, box: tuple[float, float, float, float]) -> Numbers:
    """Where the circles around the trees cross the lines that keep the distance to the edges."""
    found = []
    for axis, lines in ((0, box[:2]), (1, box[2:])):
        for line in lines:
            aside = there[:, axis] - line
            cuts = np.abs(aside) <= reach
            half = np.sqrt(np.maximum(reach[cuts] ** 2 - aside[cuts] ** 2, 0))
            for sign in (-1, 1):
                points = np.full((len(half), 2), line)
                points[:, 1 - axis] = there[cuts, 1 - axis] + sign * half
                found.append(points)
    return np.vstack(found)


def _between(there: Numbers, reach: Numbers) -> Numbers:
    """Where the circles around two trees cross."""
    one, other = np.triu_indices(len(there), 1)
    way = there[other, :2] - there[one, :2]
    far = np.hypot(way[:, 0], way[:, 1])
    cross = (far > ROUNDING) & (far <= reach[one] + reach[other]) & (far >= np.abs(reach[one] - reach[other]))
    one, other, way, far = one[cross], other[cross], way[cross], far[cross]
    along = (far**2 + reach[one] ** 2 - reach[other] ** 2) / (2 * far)
    aside = np.sqrt(np.maximum(reach[one] ** 2 - along**2, 0))
    ahead = way / far[:, None]
    foot, across = there[one, :2] + along[:, None] * ahead, aside[:, None] * ahead[:, ::-1] * (-1, 1)
    return np.vstack([foot + across, foot - across])


def _best(ground: Ground, points: Numbers, order: Order) -> int:
    x, y = np.round(points, _SAME_FT).T
    outside = -np.round(np.hypot(x - ground.width_ft / 2, y - ground.depth_ft / 2), _SAME_FT)
    keys = {"front": (x, y), "left": (y, x), "outside": (x, y, outside)}[order]
    return int(np.lexsort(keys)[0])
