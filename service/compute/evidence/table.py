"""What each cause shows: one matrix of causes by signs, made once for a catalogue.

A weight is the natural logarithm of how much likelier a sign is under a cause than by chance. From it follow all three
numbers that a diagnosis needs: what it counts that the sign is seen (the weight itself), what it counts that the sign
was looked for and not found, and how often the sign is to be expected. The last row is a cause that nobody listed:
each sign turns up under it as often as by chance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

SignWeight = Literal["typical", "sometimes", "rules_out"]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Weights:
    """What a sign counts, in natural logarithms of the odds; `background` is how often a sign turns up by chance."""

    typical: float
    sometimes: float
    rules_out: float
    unlisted: float
    background: float

    def of(self, weight: SignWeight) -> float:
        """What a sign of this kind counts when it is seen."""
        return {"typical": self.typical, "sometimes": self.sometimes, "rules_out": self.rules_out}[weight]


@dataclass(frozen=True)
class EvidenceTable:
    """`seen` and `missed` are the evidence of each sign for each cause, `chance` how often the cause shows it."""

    causes: tuple[str, ...]
    signs: tuple[str, ...]
    seen: Floats
    missed: Floats
    chance: Floats
    row_of: Mapping[str, int]
    column_of: Mapping[str, int]


def evidence_table(
    causes: Mapping[str, Mapping[str, SignWeight]], signs: Sequence[str], weights: Weights
) -> EvidenceTable:
    """The table of these causes, each with the signs that it shows or that speak against it.

    A sign that is typical (weight 3) and turns up on 4 trees in 100 by chance is there on 4 × e³ = 80 in 100 trees that
    have the cause; where it is looked for and not found, the odds fall by ln(0.2 / 0.96):

    >>> table = evidence_table({"scab": {"spots": "typical"}}, ["spots"], Weights(3, 1, -4, -1, 0.04))
    >>> table.chance.round(2).tolist(), table.missed.round(2).tolist()
    ([[0.8], [0.04]], [[-1.59], [0.0]])
    """
    columns = {sign: place for place, sign in enumerate(signs)}
    seen = np.full((len(causes) + 1, len(columns)), weights.unlisted)
    seen[-1] = 0.0
    for row, shown in enumerate(causes.values()):
        for sign, weight in shown.items():
            seen[row, columns[sign]] = weights.of(weight)
    chance = weights.background * np.exp(seen)
    if chance.max(initial=0.0) >= 1:
        raise ValueError("a typical sign would be there on more than every tree; lower the background or the weight")
    return EvidenceTable(
        causes=tuple(causes),
        signs=tuple(columns),
        seen=seen,
        missed=np.log((1 - chance) / (1 - weights.background)),
        chance=chance,
        row_of={cause: place for place, cause in enumerate(causes)},
        column_of=columns,
    )
