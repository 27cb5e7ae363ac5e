"""Where the kept fruit go: more toward the trunk, fewer toward the tip; and how a crop is shared out among branches."""

from __future__ import annotations

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Thirds:
    """Shares, or numbers, of fruit on the third of a branch next to the trunk, on the middle and on the outer one."""

    inner: float
    middle: float
    outer: float

    @property
    def lever(self) -> float:
        """How far from the trunk the fruit hang on average, as a share of the length of the branch.

        >>> round(Thirds(1, 1, 1).lever, 2), round(Thirds(3, 2, 1).lever, 2)
        (0.5, 0.39)
        """
        whole = self.inner + self.middle + self.outer
        return (self.inner / 6 + self.middle / 2 + self.outer * 5 / 6) / whole

    def without_tip(self) -> Thirds:
        """The same with nothing on the outer third.

        >>> Thirds(0.5, 0.35, 0.15).without_tip()
        Thirds(inner=0.5, middle=0.35, outer=0)
        """
        return Thirds(self.inner, self.middle, 0)


def in_thirds(fruit: int, shares: Thirds) -> Thirds:
    """A number of fruit placed in thirds by their shares, to whole fruit, the inner third first where it is even.

    >>> in_thirds(6, Thirds(0.5, 0.35, 0.15)), in_thirds(1, Thirds(0.5, 0.35, 0.15))
    (Thirds(inner=3, middle=2, outer=1), Thirds(inner=1, middle=0, outer=0))
    """
    weights = (shares.inner, shares.middle, shares.outer)
    exact = [fruit * weight / sum(weights) for weight in weights]
    placed = [math.floor(each) for each in exact]
    left_over = sorted(range(3), key=lambda place: placed[place] - exact[place])
    for place in left_over[: fruit - sum(placed)]:
        placed[place] += 1
    return Thirds(*placed)


def share_out(total: int, claims: Sequence[int]) -> tuple[int, ...]:
    """A crop shared out among branches in proportion to what each could keep, never more than that.

    Fruit go one by one to the branch that has the least for its claim, so that a greater claim never gets less and
    never makes another get more.

    >>> share_out(10, (12, 6, 2)), share_out(30, (12, 6, 2))
    ((6, 3, 1), (12, 6, 2))
    """
    if sum(claims) <= total:
        return tuple(claims)
    given = [0] * len(claims)
    waiting = [(-float(claim), place) for place, claim in enumerate(claims) if claim]
    heapq.heapify(waiting)
    for _ in range(total):
        _, place = heapq.heappop(waiting)
        given[place] += 1
        if given[place] < claims[place]:
            heapq.heappush(waiting, (-claims[place] / (given[place] + 1), place))
    return tuple(given)
