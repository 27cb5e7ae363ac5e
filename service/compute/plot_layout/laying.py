"""Gives as many trees as possible a place on a plot, and says which are left over.

If some trees go in, so do as many smaller ones; the most that go in are therefore the smallest, and the widest are left
over. How many that is is narrowed down: trees are tried in rows first, since rows are how people plant, then one by one
into corners, and at last pushed together to make room for one more. The same trees always get the same places.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from service.compute.plot_layout.corners import ORDERS, into_corners, roomiest
from service.compute.plot_layout.easing import pushed_apart
from service.compute.plot_layout.ground import Ground, Numbers, distances
from service.compute.plot_layout.rows import in_rows
from service.compute.plot_layout.trees import Circle, Layout, Placed, ToPlace


def lay_out(
    trees: Sequence[ToPlace], plot: tuple[float, float], *, edge_share: float, fixed: Sequence[Circle] = ()
) -> Layout:
    """Places for trees on a plot of some width and depth; each keeps `edge_share` of its spacing to every edge.

    Two trees of 12 ft and one of 8 ft on 24 by 20 ft, with half of their spacing to the edges:

    >>> layout = lay_out([ToPlace(8, 8), ToPlace(12, 12), ToPlace(12, 12)], (24, 20), edge_share=0.5)
    >>> [(spot.tree, round(spot.x_ft), round(spot.y_ft)) for spot in layout.placed], layout.left_over
    ([(0, 4, 16), (1, 6, 6), (2, 18, 6)], ())
    """
    standing = np.array([(one.x_ft, one.y_ft, one.spacing_ft) for one in fixed], dtype=float).reshape(-1, 3)
    ground = Ground(plot[0], plot[1], edge_share, standing)
    smallest = sorted(range(len(trees)), key=lambda tree: (trees[tree].spacing_ft, tree))
    places = _most(ground, np.array([trees[tree].spacing_ft for tree in smallest], dtype=float))
    return _told(trees, smallest[: len(places)], places, standing)


def _most(ground: Ground, spacings: Numbers) -> Numbers:
    """Places for as many trees as go in, out of trees given with the smallest first."""
    count = _at_most(ground, spacings)
    found = _quickly(ground, spacings[:count])
    if found is not None:
        return found
    found = np.empty((0, 2))
    low, high = 0, count
    while high - low > 1:
        middle = (low + high) // 2
        tried = _quickly(ground, spacings[:middle])
        low, high, found = (low, middle, found) if tried is None else (middle, high, tried)
    while len(found) < count:
        more = _with_one_more(ground, found, spacings[: len(found) + 1])
        if more is None:
            break
        found = more
    return found


def _at_most(ground: Ground, spacings: Numbers) -> int:
    """A bound on the trees: each covers a disc as wide as its spacing, and no disc reaches far over the edge."""
    fit = [spacing for spacing in spacings if ground.takes(spacing)]
    if not fit:
        return 0
    covered = np.cumsum(np.pi / 4 * np.square(fit))
    over = np.maximum(0.0, 1 - 2 * ground.edge_share) * np.array(fit)
    return int(np.sum(covered <= (ground.width_ft + over) * (ground.depth_ft + over)))


def _quickly(ground: Ground, spacings: Numbers) -> Numbers | None:
    """Places for all these trees by the ways that take no search; the widest are placed first."""
    widest = np.argsort(-spacings, kind="stable")
    for places in _ways(ground, spacings[widest]):
        if places is not None and len(places) == len(spacings):
            settled = np.empty_like(places)
            settled[widest] = places
            return settled
    return None


def _ways(ground: Ground, spacings: Numbers) -> Iterator[Numbers | None]:
    for staggered in (False, True):
        yield in_rows(ground, spacings, staggered=staggered)
        turned = in_rows(ground.turned, spacings, staggered=staggered)
        yield None if turned is None else turned[:, ::-1]
    for order in ORDERS:
        yield into_corners(ground, spacings, order)


def _with_one_more(ground: Ground, places: Numbers, spacings: Numbers) -> Numbers | None:
    """Places for the trees that have one and for one more, which is the widest."""
    there = np.vstack([np.column_stack([places, spacings[:-1]]), ground.fixed])
    start = np.vstack([places, roomiest(ground, float(spacings[-1]), there)])
    pushed = pushed_apart(ground, start, spacings)
    if pushed is not None:
        return pushed
    return pushed_apart(ground, _evenly(ground, spacings), spacings)


def _evenly(ground: Ground, spacings: Numbers) -> Numbers:
    """Places that are spread evenly, the first at the front left, without regard to distances."""
    count = len(spacings)
    across = max(1, round(math.sqrt(count * ground.width_ft / ground.depth_ft)))
    deep = math.ceil(count / across)
    spots = np.arange(count)
    x = (spots % across + 0.5 + 0.25 * (spots // across % 2)) * ground.width_ft / across
    return np.column_stack([x, (spots // across + 0.5) * ground.depth_ft / deep])


def _told(trees: Sequence[ToPlace], which: Sequence[int], places: Numbers, standing: Numbers) -> Layout:
    placed = tuple(
        Placed(tree, float(x), float(y), trees[tree].spread_ft, trees[tree].spacing_ft)
        for tree, (x, y) in sorted(zip(which, places, strict=True), key=lambda pair: pair[0])
    )
    left_over = tuple(tree for tree in range(len(trees)) if tree not in set(which))
    return Layout(placed, left_over, _nearest(which, places, standing))


def _nearest(which: Sequence[int], places: Numbers, standing: Numbers) -> dict[int, float]:
    far = distances(places, np.vstack([places, standing[:, :2]]))
    np.fill_diagonal(far, np.inf)
    if far.shape[1] < 2:
        return {}
    return {tree: float(one) for tree, one in sorted(zip(which, far.min(axis=1), strict=True))}
