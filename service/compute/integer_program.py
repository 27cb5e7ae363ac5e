"""A small mixed-integer program, built variable by variable and solved by HiGHS.

Variables and rows keep the order in which they were added, and the solver runs on one thread with a gap of nought: the
same program gives the same answer. Programs are small, so what the solver would spend on simplifying them, on symmetry
and on guessing costs more than it saves; it is switched off. One thread also keeps forked and threaded servers safe.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from highspy import HighsLp, HighsModelStatus, HighsVarType, MatrixFormat, ObjSense
from highspy._core import _Highs
from numpy.typing import NDArray

from service.domain.errors import FruitwrightError

_OPTIONS: dict[str, bool | int | float | str] = {
    "output_flag": False,
    "threads": 1,
    "mip_rel_gap": 0.0,
    "presolve": "off",
    "mip_detect_symmetry": False,
    "mip_heuristic_effort": 0.0,
    "mip_heuristic_run_feasibility_jump": False,
    "mip_heuristic_run_root_reduced_cost": False,
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_rens": False,
}
_KINDS = (HighsVarType.kContinuous, HighsVarType.kInteger)


class Program:
    """Maximise the value of variables that start at nought, under rows that bound their sums."""

    def __init__(self) -> None:
        self._value: list[float] = []
        self._upper: list[float] = []
        self._whole: list[bool] = []
        self._low: list[float] = []
        self._high: list[float] = []
        self._starts: list[int] = [0]
        self._columns: list[int] = []
        self._weights: list[float] = []

    def variable(self, value: float = 0.0, *, upper: float = 1.0, whole: bool = True) -> int:
        """Add a variable between nought and `upper`; returns its number."""
        self._value.append(value)
        self._upper.append(upper)
        self._whole.append(whole)
        return len(self._value) - 1

    def row(self, terms: Mapping[int, float], *, low: float = -math.inf, high: float = math.inf) -> None:
        """Keep a weighted sum of variables between `low` and `high`."""
        self._columns.extend(terms)
        self._weights.extend(terms.values())
        self._starts.append(len(self._columns))
        self._low.append(low)
        self._high.append(high)

    def best(self) -> NDArray[np.float64] | None:
        """The variables that reach the greatest value, or None where none satisfy every row."""
        solver = _Highs()  # the bare solver: its wrapper prints a banner to standard output
        for name, setting in _OPTIONS.items():
            solver.setOptionValue(name, setting)
        solver.passModel(self._model())
        solver.run()
        status = solver.getModelStatus()
        if status == HighsModelStatus.kInfeasible:
            return None
        if status != HighsModelStatus.kOptimal:
            raise FruitwrightError(f"the choice of trees could not be finished: {solver.modelStatusToString(status)}")
        return np.array(solver.getSolution().col_value)

    def _model(self) -> HighsLp:
        model = HighsLp()
        model.num_col_, model.num_row_ = len(self._value), len(self._low)
        model.sense_ = ObjSense.kMaximize
        model.col_cost_ = np.array(self._value)
        model.col_lower_, model.col_upper_ = np.zeros(len(self._value)), np.array(self._upper)
        model.row_lower_, model.row_upper_ = np.array(self._low), np.array(self._high)
        model.integrality_ = [_KINDS[whole] for whole in self._whole]
        model.a_matrix_.format_ = MatrixFormat.kRowwise
        model.a_matrix_.start_ = np.array(self._starts)
        model.a_matrix_.index_ = np.array(self._columns)
        model.a_matrix_.value_ = np.array(self._weights)
        return model
