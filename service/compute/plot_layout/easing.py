"""Trees that stand too close are pushed apart, a little at a time, until all are clear or no end is in sight."""

from __future__ import annotations

import numpy as np

from service.compute.plot_layout.ground import Ground, Numbers, apart

_STEPS = 240
_LOOK_EVERY = 8
_PUSH = 0.55  # of the way that two trees lack, each goes a little more than half
_MORE = 1.0005  # they are pushed a hair too far, so that nearing the end is enough


def pushed_apart(ground: Ground, places: Numbers, spacings: Numbers) -> Numbers | None:
    """The places after pushing; None where some trees are still too close."""
    fixed = ground.fixed
    reach = apart(spacings, np.append(spacings, fixed[:, 2])) * _MORE
    np.fill_diagonal(reach, 0)
    push = np.full(reach.shape, _PUSH)
    push[:, len(spacings) :] = 1.0
    low = ground.edge_share * spacings[:, None]
    high = np.maximum(np.array([ground.width_ft, ground.depth_ft]) - low, low)
    places = np.clip(places, low, high)
    for step in range(1, _STEPS + 1):
        everything = np.vstack([places, fixed[:, :2]])
        way = places[:, None] - everything[None]
        far = np.hypot(way[..., 0], way[..., 1])
        lacking = np.maximum(reach - far, 0) * push
        moves = (way * (lacking / np.maximum(far, _TINY_FT))[..., None]).sum(axis=1)
        places = np.clip(places + moves, low, high)
        if step % _LOOK_EVERY == 0 and ground.holds(places, spacings):
            return places
    return None


_TINY_FT = 1e-6
