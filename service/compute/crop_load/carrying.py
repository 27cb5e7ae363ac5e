"""The crop that a tree carries: each branch by its own measures, and all of them within what the whole tree allows.

Each variety on a tree is reckoned for itself. Where the whole tree allows less than its varieties together would keep,
each gives up the same share.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from service.compute.crop_load.bounds import Bound, Measure, Reach, Targets, branch_bounds, lowest, tree_bounds
from service.compute.crop_load.placing import share_out
from service.domain.crop_load import Branch, Load, TreeSize

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Part:
    """The part of a tree that one variety holds, or the whole of it, and what the rules ask of it."""

    load: Load
    targets: Targets


@dataclass(frozen=True, slots=True)
class CarriedBranch:
    """What stays on a branch and what comes off; None where it was not counted or nothing bounds it."""

    branch: Branch
    bounds: tuple[Bound, ...]
    bound_by: Measure | Literal["tree"] | None
    keep: int | None

    @property
    def remove(self) -> int | None:
        """What comes off, where the fruit were counted."""
        fruit = self.branch.fruit
        return None if fruit is None or self.keep is None else fruit - self.keep


@dataclass(frozen=True, slots=True)
class Carried:
    """What the measures allow, what stays and what comes off; each None where it cannot be told."""

    allowed: int | None
    keep: int | None
    remove: int | None
    bound_by: Measure | Literal["several"] | None
    bounds: tuple[Bound, ...]
    branches: tuple[CarriedBranch, ...]


def carry(tree: TreeSize, parts: Sequence[Part], reach: Reach) -> tuple[Carried, ...]:
    """What each part of a tree carries."""
    branches = [tuple(_own(branch, part.targets, reach) for branch in part.load.branches) for part in parts]
    bounds = [tree_bounds(tree, part.targets, reach) for part in parts]
    claims = [_claim(part.load, own) for part, own in zip(parts, branches, strict=True)]
    rooms = rooms_within(claims, [lowest(each) for each in bounds])
    return tuple(
        _carried(part.load, own, bounds=whole, room=room)
        for part, own, whole, room in zip(parts, branches, bounds, rooms, strict=True)
    )


def rooms_within(claims: Sequence[int | None], ceilings: Sequence[Bound | None]) -> tuple[Bound | None, ...]:
    """What the whole tree leaves to each of its parts; `ceilings` are what it would allow if it were all of one part.

    A part whose claim is unknown is taken to hold an equal share of the tree.

    >>> half = rooms_within((80, 80), (Bound("trunk_section", 120), Bound("trunk_section", 80)))
    >>> [room.fruit for room in half]
    [48, 48]
    """
    shares = [_share_of_tree(claim, top, len(claims)) for claim, top in zip(claims, ceilings, strict=True)]
    over = max(1.0, sum(shares))
    spare = max(0.0, 1.0 - sum(shares))
    return tuple(
        None if top is None else Bound(top.by, math.floor(top.fruit * (share / over + spare) + _ROUNDING))
        for share, top in zip(shares, ceilings, strict=True)
    )


def _share_of_tree(claim: int | None, ceiling: Bound | None, parts: int) -> float:
    if ceiling is None:
        return 0.0
    if claim is None:
        return 1 / parts
    return claim / ceiling.fruit if ceiling.fruit else 0.0


def _own(branch: Branch, targets: Targets, reach: Reach) -> CarriedBranch:
    bounds = branch_bounds(branch, targets, reach)
    least = lowest(bounds)
    keep = branch.fruit if least is None else least.fruit if branch.fruit is None else min(branch.fruit, least.fruit)
    return CarriedBranch(branch, bounds, None if least is None else least.by, keep)


def _claim(load: Load, branches: Sequence[CarriedBranch]) -> int | None:
    if load.fruit is not None:
        return load.fruit - sum(branch.remove or 0 for branch in branches)
    keeps = [branch.keep for branch in branches if branch.keep is not None]
    return sum(keeps) if keeps and len(keeps) == len(branches) else None


def _carried(load: Load, own: tuple[CarriedBranch, ...], *, bounds: tuple[Bound, ...], room: Bound | None) -> Carried:
    branches = own if room is None else _within(own, room.fruit)
    keep, remove = _totals(load, branches, room)
    return Carried(_allowed(load, own, room), keep, remove, _bound_by(load, branches, room), bounds, branches)


def _within(own: tuple[CarriedBranch, ...], room: int) -> tuple[CarriedBranch, ...]:
    claims = [branch.keep for branch in own if branch.keep is not None]
    if len(claims) < len(own) or sum(claims) <= room:
        return own
    return tuple(
        branch if branch.keep == keep else CarriedBranch(branch.branch, branch.bounds, "tree", keep)
        for branch, keep in zip(own, share_out(room, claims), strict=True)
    )


def _totals(load: Load, branches: Sequence[CarriedBranch], room: Bound | None) -> tuple[int | None, int | None]:
    claim = _claim(load, branches)
    if load.fruit is not None:
        sampled = load.fruit == sum(branch.branch.fruit or 0 for branch in branches)
        if room is None and not (branches and sampled):
            return None, None
        keep = claim if room is None else min(claim or 0, room.fruit)
        return keep, load.fruit - (keep or 0)
    if not branches:
        return (None if room is None else room.fruit), None
    counted = load.counted
    bounded = room is not None or any(branch.bounds for branch in branches)
    if claim is None or not bounded:
        return None, None
    return claim, None if counted is None else counted - claim


def _allowed(load: Load, own: Sequence[CarriedBranch], room: Bound | None) -> int | None:
    """What the measures would bear, however few fruit there are."""
    least = [lowest(branch.bounds) for branch in own]
    known = [bound.fruit for bound in least if bound is not None]
    complete = load.fruit is None and own and len(known) == len(own)
    tops = ([sum(known)] if complete else []) + ([] if room is None else [room.fruit])
    return min(tops, default=None)


def _bound_by(
    load: Load, branches: Sequence[CarriedBranch], room: Bound | None
) -> Measure | Literal["several"] | None:
    deciding = {branch.bound_by for branch in branches if branch.bounds or branch.bound_by}
    if room is not None and (load.fruit is not None or not deciding or "tree" in deciding):
        return room.by
    measures = [measure for measure in deciding if measure is not None and measure != "tree"]
    return (measures[0] if len(measures) == 1 else "several") if measures else None
