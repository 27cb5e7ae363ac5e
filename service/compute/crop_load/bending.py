"""Whether a loaded limb bends too far: the stress at its foot under the fruit at picking weight.

The limb is taken as a round bar, level and fixed at the trunk, the hardest case. Stress is 32 M over π d³ for the
moment M of the fruit and the thickness d, and it is told as a share of the bending strength of green wood. Leaves, wind
and faults of the wood are left to the limits that rules compare the share with.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

OUNCES_PER_POUND = 16
_MOST = 10**7


@dataclass(frozen=True, slots=True)
class Fruiting:
    """Weight of one fruit at picking, and the bending strength of the green wood."""

    fruit_weight_oz: float
    wood_strength_psi: float


@dataclass(frozen=True, slots=True)
class Limb:
    """A limb by its length and its thickness at the foot; `lever` is where its fruit hang, as a share of the length."""

    length_in: float
    diameter_in: float
    lever: float


def strain(limb: Limb, fruit: int, fruiting: Fruiting) -> float:
    """Bending stress as a share of the strength of the wood.

    Six peaches of 6 oz on a limb of 36 in and half an inch, 8000 psi (fpl-wood-handbook, recalled):

    >>> round(strain(Limb(36, 0.5, lever=0.39), 6, Fruiting(6, 8000)), 2)
    0.32
    """
    moment = fruit * fruiting.fruit_weight_oz / OUNCES_PER_POUND * limb.length_in * limb.lever
    return 32 * moment / (math.pi * limb.diameter_in**3) / fruiting.wood_strength_psi


def safe_fruit(limb: Limb, fruiting: Fruiting, *, most: float) -> int:
    """How many fruit a limb carries up to a share of its strength.

    >>> safe_fruit(Limb(36, 0.5, lever=0.39), Fruiting(6, 8000), most=0.35)
    6
    """
    return min(_MOST, math.floor(most / strain(limb, 1, fruiting)))
