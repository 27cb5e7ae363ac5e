"""A small mixed-integer program, built variable by variable and solved by HiGHS through scipy.

Variables and rows keep the order in which they were added, and the solver runs on one thread with a gap of nought:
the same program gives the same answer.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from service.domain.errors import FruitwrightError

_INFEASIBLE = 2


class Program:
    """Maximise the value of variables that start at nought, under rows that bound their sums."""

    def __init__(self) -> None:
        self._value: list[float] = []
        self._upper: list[float] = []
        self._whole: list[int] = []
        self._low: list[float] = []
        self._high: list[float] = []
        self._entries: list[tuple[int, int, float]] = []

    def variable(self, value: float = 0.0, *, upper: float = 1.0, whole: bool = True) -> int:
        """Add a variable between nought and `upper`; returns its number."""
        self._value.append(value)
        self._upper.append(upper)
        self._whole.append(int(whole))
        return len(self._value) - 1

    def row(self, terms: Mapping[int, float], *, low: float = -math.inf, high: float = math.inf) -> None:
        """Keep a weighted sum of variables between `low` and `high`."""
        number = len(self._low)
        self._entries.extend((number, variable, weight) for variable, weight in terms.items())
        self._low.append(low)
        self._high.append(high)

    def best(self) -> tuple[float, np.ndarray] | None:
        """The greatest value and the variables that reach it, or None where no variables satisfy every row."""
        if not self._value:
            return 0.0, np.zeros(0)
        result = milp(
            -np.array(self._value),
            integrality=np.array(self._whole),
            bounds=Bounds(0, np.array(self._upper)),
            constraints=self._constraints(),
            options={"mip_rel_gap": 0.0},
        )
        if result.status == _INFEASIBLE:
            return None
        if result.status != 0:
            raise FruitwrightError(f"the choice of trees could not be finished: {result.message}")
        return -result.fun, result.x

    def _constraints(self) -> LinearConstraint | tuple[()]:
        if not self._low:
            return ()
        rows, columns, weights = zip(*self._entries, strict=True) if self._entries else ((), (), ())
        shape = (len(self._low), len(self._value))
        return LinearConstraint(csr_array((weights, (rows, columns)), shape=shape), self._low, self._high)
