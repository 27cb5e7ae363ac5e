"""The plot as bounds on places: how near to an edge, to a standing tree and to one another trunks may be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
ROUNDING = 1e-9


@dataclass(frozen=True)
class Ground:
    """A plot. `fixed` holds a row of x, y and spacing for each standing tree."""

    width_ft: float
    depth_ft: float
    edge_share: float
    fixed: Numbers

    @property
    def turned(self) -> Ground:
        """The same plot seen from its left side, so that width and depth change places."""
        return Ground(self.depth_ft, self.width_ft, self.edge_share, self.fixed[:, [1, 0, 2]])

    def box(self, spacing_ft: float) -> tuple[float, float, float, float]:
        """The lowest and highest x, then y, at which a tree of some spacing keeps its distance to the edges."""
        margin = self.edge_share * spacing_ft
        return margin, self.width_ft - margin, margin, self.depth_ft - margin

    def takes(self, spacing_ft: float) -> bool:
        """Whether a tree can stand here alone, as far as the edges go.

        >>> Ground(12, 30, 0.5, np.empty((0, 3))).takes(12), Ground(12, 30, 0.5, np.empty((0, 3))).takes(13)
        (True, False)
        """
        return 2 * self.edge_share * spacing_ft <= min(self.width_ft, self.depth_ft) + ROUNDING

    def holds(self, places: Numbers, spacings: Numbers) -> bool:
        """Whether trees of these spacings may all stand at these places."""
        margins = self.edge_share * spacings[:, None] - ROUNDING
        far = np.array([self.width_ft, self.depth_ft]) - margins
        if not ((places >= margins) & (places <= far)).all():
            return False
        everything = np.vstack([places, self.fixed[:, :2]])
        short = apart(spacings, np.append(spacings, self.fixed[:, 2])) - distances(places, everything)
        np.fill_diagonal(short, 0)
        return bool((short <= ROUNDING).all())


def apart(ones: Numbers, others: Numbers) -> Numbers:
    """How far each of some trees stays from each of others: half the sum of their spacings.

    >>> apart(np.array([10.0]), np.array([10.0, 20.0]))
    array([[10., 15.]])
    """
    return (ones[:, None] + others[None, :]) / 2


def distances(ones: Numbers, others: Numbers) -> Numbers:
    """How far each of some places is from each of others.

    >>> distances(np.array([[0.0, 0.0]]), np.array([[3.0, 4.0]]))
    array([[5.]])
    """
    return np.hypot(ones[:, None, 0] - others[None, :, 0], ones[:, None, 1] - others[None, :, 1])
