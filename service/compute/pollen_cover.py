"""The smallest addition: the fewest trees that give every tree the partners it lacks, found exactly.

Which trees can be served at all is plain, since more candidates never serve fewer. For those a set cover is solved: as
few candidates as will do, of such sets the one with the greatest sum of fits, and of those the one that stands earliest
in the order of candidates. Candidates that serve the same trees are told apart by fit alone, so only the best of them
go to the solver; mostly one candidate serves all, and then nothing is solved.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.compute.integer_program import Program

Counts = NDArray[np.int64]
_CHOSEN = 0.5
_HAIR = 0.5


@dataclass(frozen=True, slots=True)
class Cover:
    """The candidates to add, the fittest first, and which of the lacking they serve; all are told by their place."""

    added: tuple[int, ...]
    served: tuple[int, ...]
    unserved: tuple[int, ...]


def smallest_cover(serves: NDArray[np.int_] | NDArray[np.bool_], needed: Sequence[int], fits: Sequence[float]) -> Cover:
    """The fewest candidates that serve all who can be served.

    `serves[i, j]` says for how many partners of the lacking tree `i` candidate `j` counts, `needed[i]` how many it
    lacks, `fits[j]` how well the candidate suits the place (0-100). Two trees, of which the second lacks two partners:

    >>> smallest_cover(np.array([[1, 0, 1], [0, 1, 1]]), [1, 2], [70, 60, 50])
    Cover(added=(1, 2), served=(0, 1), unserved=())
    """
    counts, owed = _checked(serves, needed, fits)
    can_be = np.flatnonzero(counts.sum(axis=1) >= owed)
    unserved = tuple(int(row) for row in range(len(owed)) if row not in set(can_be))
    chosen = _fewest(np.minimum(counts[can_be], owed[can_be, None]), owed[can_be], fits) if len(can_be) else []
    added = sorted(chosen, key=lambda one: (-fits[one], one))
    return Cover(tuple(added), tuple(map(int, can_be)), unserved)


def _checked(
    serves: NDArray[np.int_] | NDArray[np.bool_], needed: Sequence[int], fits: Sequence[float]
) -> tuple[Counts, Counts]:
    counts, owed = np.asarray(serves, dtype=np.int64).reshape(len(needed), len(fits)), np.asarray(needed, np.int64)
    if (counts < 0).any():
        raise ValueError("a candidate counts for no partner or for some, not for fewer than none")
    if (owed < 1).any():
        raise ValueError("a tree that lacks no partner needs no addition")
    return counts, owed


def _fewest(counts: Counts, owed: Counts, fits: Sequence[float]) -> list[int]:
    alone = np.flatnonzero((counts >= owed[:, None]).all(axis=0))
    if len(alone):
        return [min(map(int, alone), key=lambda one: (-fits[one], one))]
    offered = _worth_offering(counts, owed, fits)
    # Serving as many partners as are owed takes at most one candidate each, which bounds what fits can add up to.
    most = min(len(offered), int(owed.sum()))
    one_more = max(fits) * most + 1
    program = Program()
    hair = _HAIR / (len(fits) * most)
    variables = [program.variable(fits[one] - one_more - hair * one) for one in offered]
    for row, owing in zip(counts, owed, strict=True):
        terms = {variable: float(row[one]) for one, variable in zip(offered, variables, strict=True) if row[one]}
        program.row(terms, low=float(owing))
    solved = program.best()
    assert solved is not None, "all that are left can be served"
    return [one for one, variable in zip(offered, variables, strict=True) if solved[variable] > _CHOSEN]


def _worth_offering(counts: Counts, owed: Counts, fits: Sequence[float]) -> list[int]:
    """Of candidates that serve the same, only the best as many as any tree could still lack."""
    alike: dict[bytes, list[int]] = defaultdict(list)
    for one in range(counts.shape[1]):
        if counts[:, one].any():
            alike[counts[:, one].tobytes()].append(one)
    kept: list[int] = []
    for group in alike.values():
        ranked = sorted(group, key=lambda one: (-fits[one], one))
        kept += ranked[: int(owed[counts[:, group[0]] > 0].max())]
    return sorted(kept)
