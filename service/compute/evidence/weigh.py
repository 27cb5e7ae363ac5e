"""How likely each cause is by the signs that were seen and those that were looked for and not found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from service.compute.evidence.table import EvidenceTable, Floats


@dataclass(frozen=True)
class Likelihoods:
    """Shares that add up to one: `shares` runs over `rows` of the table, and its last is something else."""

    table: EvidenceTable
    rows: npt.NDArray[np.intp]
    shares: Floats

    @property
    def something_else(self) -> float:
        """The likelihood that the cause is none of those that are known."""
        return float(self.shares[-1])

    @cached_property
    def ranked(self) -> tuple[tuple[str, float], ...]:
        """The known causes with their likelihoods, the likeliest first; equals in the order of the catalogue."""
        order = np.argsort(-self.shares[:-1], kind="stable")
        return tuple((self.table.causes[self.rows[place]], float(self.shares[place])) for place in order)


def weigh(
    table: EvidenceTable,
    start: Mapping[str, float],
    *,
    something_else: float,
    answers: Mapping[str, bool],
) -> Likelihoods:
    """The likelihoods of the causes in `start` (their log-odds before any sign), given signs seen and not found.

    >>> from service.compute.evidence.table import Weights, evidence_table
    >>> table = evidence_table({"scab": {"spots": "typical"}, "aphid": {"curl": "typical"}}, ["spots", "curl"],
    ...                        Weights(3, 1, -4, -1, 0.04))
    >>> found = weigh(table, {"scab": 0, "aphid": 0}, something_else=0, answers={"spots": True})
    >>> [(cause, round(share, 2)) for cause, share in found.ranked], round(found.something_else, 2)
    ([('scab', 0.94), ('aphid', 0.02)], 0.05)
    """
    rows = np.array([table.row_of[cause] for cause in start], dtype=np.intp)
    all_rows = np.append(rows, len(table.causes))
    odds = np.array([*start.values(), something_else], dtype=float)
    odds += table.seen[np.ix_(all_rows, _columns(table, answers, seen=True))].sum(axis=1)
    odds += table.missed[np.ix_(all_rows, _columns(table, answers, seen=False))].sum(axis=1)
    shares = np.exp(odds - odds.max())
    return Likelihoods(table, rows, shares / shares.sum())


def _columns(table: EvidenceTable, answers: Mapping[str, bool], *, seen: bool) -> npt.NDArray[np.intp]:
    these: Iterable[int] = (table.column_of[sign] for sign, answer in answers.items() if answer is seen)
    return np.fromiter(these, dtype=np.intp)
