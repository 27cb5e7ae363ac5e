"""Trees in rows, as people plant them: the widest first, each row as close to those before it as its trees allow.

A row may also begin half a spacing further in, so that its trees stand in the gaps of the row before.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from service.compute.plot_layout.ground import ROUNDING, Ground, Numbers

Row = list[tuple[int, float]]


def in_rows(ground: Ground, spacings: Numbers, *, staggered: bool) -> Numbers | None:
    """The places of trees, given the widest first, in rows along the width; None where not all go in so.

    >>> plot = Ground(24, 20, 0.5, np.empty((0, 3)))
    >>> in_rows(plot, np.array([12.0, 12.0, 8.0]), staggered=False).round(1).tolist()
    [[6.0, 6.0], [18.0, 6.0], [4.0, 15.8]]
    """
    rows = _filled(ground, spacings, staggered=staggered)
    if rows is None:
        return None
    places = np.zeros((len(spacings), 2))
    before: list[int] = []
    for row in rows:
        trees = [tree for tree, _ in row]
        places[trees, 0] = [along for _, along in row]
        y = max(ground.edge_share * spacings[trees[0]], _clear_of(places, spacings, before=before, row=row))
        places[trees, 1] = y
        before += trees
    return places if ground.holds(places, spacings) else None


def _filled(ground: Ground, spacings: Numbers, *, staggered: bool) -> list[Row] | None:
    """Which trees stand in which row and where along it: each takes the first row with room."""
    rows: list[Row] = []
    for tree, spacing in enumerate(spacings):
        far = ground.width_ft - ground.edge_share * spacing + ROUNDING
        for row in rows:
            last, along = row[-1]
            there = along + (spacings[last] + spacing) / 2
            if there <= far:
                row.append((tree, there))
                break
        else:
            start = spacing * (ground.edge_share + (0.5 if staggered and len(rows) % 2 else 0.0))
            if start > far:
                return None
            rows.append([(tree, start)])
    return rows


def _clear_of(places: Numbers, spacings: Numbers, *, before: Sequence[int], row: Row) -> float:
    """How far back a row begins to be clear of all trees of the rows before it."""
    y = 0.0
    for tree, along in row:
        for other in before:
            reach = (spacings[tree] + spacings[other]) / 2
            aside = along - places[other, 0]
            if abs(aside) < reach:
                y = max(y, places[other, 1] + math.sqrt(reach * reach - aside * aside))
    return y
