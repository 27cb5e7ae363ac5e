"""Which question splits the remaining causes best: the information that its answer is expected to bring."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.compute.evidence.table import Floats
from service.compute.evidence.weigh import Likelihoods


@dataclass(frozen=True, slots=True)
class Split:
    """What asking for a sign brings: `gain` in bits, how often yes is to be expected, and the likelihoods after each.

    `after_yes` and `after_no` run over the causes as the likelihoods that were asked do.
    """

    sign: str
    gain: float
    yes: float
    after_yes: Floats
    after_no: Floats


def best_splits(likelihoods: Likelihoods, signs: Sequence[str], *, most: int) -> tuple[Split, ...]:
    """The signs worth asking for, the most telling first; equals in the order given.

    Two causes, equally likely, of which a typical sign (80 of 100 trees) tells one from the other (about 1 of 100):

    >>> from service.compute.evidence.table import Weights, evidence_table
    >>> from service.compute.evidence.weigh import weigh
    >>> table = evidence_table({"scab": {"spots": "typical"}, "aphid": {}}, ["spots"], Weights(3, 1, -4, -1, 0.04))
    >>> even = weigh(table, {"scab": 0, "aphid": 0}, something_else=-50, answers={})
    >>> [(split.sign, round(split.gain, 2), round(split.yes, 2)) for split in best_splits(even, ["spots"], most=1)]
    [('spots', 0.56, 0.41)]
    """
    if not signs:
        return ()
    table = likelihoods.table
    rows = np.append(likelihoods.rows, len(table.causes))
    columns = np.array([table.column_of[sign] for sign in signs], dtype=np.intp)
    shown = table.chance[np.ix_(rows, columns)]
    joint_yes = likelihoods.shares[:, None] * shown
    yes = joint_yes.sum(axis=0)
    after_yes = joint_yes / yes
    after_no = (likelihoods.shares[:, None] - joint_yes) / (1 - yes)
    gain = _bits(likelihoods.shares[:, None])[0] - yes * _bits(after_yes) - (1 - yes) * _bits(after_no)
    return tuple(
        Split(signs[place], float(gain[place]), float(yes[place]), after_yes[:, place], after_no[:, place])
        for place in np.argsort(-gain.round(12), kind="stable")[:most]
    )


def _bits(shares: Floats) -> Floats:
    """The uncertainty of each column of shares, in bits."""
    logs = np.log2(shares, out=np.zeros_like(shares), where=shares > 0)
    found: Floats = -(shares * logs).sum(axis=0)
    return found
