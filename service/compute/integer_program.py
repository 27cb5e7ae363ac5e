"""A small mixed-integer program, built variable by variable and solved by HiGHS.

Variables and rows keep the order in which they were added, and the solver runs on one thread with a gap of nought: the
same program gives the same answer. One thread also keeps forked and threaded servers safe.

In a small program what the solver would spend on simplifying it, on symmetry and on guessing costs more than it saves;
`best` switches it off. A larger one needs it, and needs a bound: `best_found` searches a number of nodes and no more,
which, unlike a bound in seconds, ends at the same answer on every machine.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from highspy import HighsLp, HighsModelStatus, HighsVarType, MatrixFormat, ObjSense
from highspy._core import _Highs
from numpy.typing import NDArray

from service.domain.errors import FruitwrightError

_Options = dict[str, bool | int | float | str]
_ALWAYS: _Options = {"output_flag": False, "threads": 1, "mip_rel_gap": 0.0, "mip_detect_symmetry": False}
_SMALL: _Options = {
    "presolve": "off",
    "mip_heuristic_effort": 0.0,
    "mip_heuristic_run_feasibility_jump": False,
    "mip_heuristic_run_root_reduced_cost": False,
    "mip_heuristic_run_rins": False,
    "mip_heuristic_run_rens": False,
}
_KINDS = (HighsVarType.kContinuous, HighsVarType.kInteger)
_FEASIBLE = 2  # kSolutionStatusFeasible of the solver
Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Found:
    """The variables that were found, and whether no others reach a greater value."""

    values: Values
    proven: bool


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

    def best(self) -> Values | None:
        """The variables that reach the greatest value, or None where none satisfy every row."""
        solver = self._solved(_SMALL)
        status = solver.getModelStatus()
        if status == HighsModelStatus.kInfeasible:
            return None
        if status != HighsModelStatus.kOptimal:
            raise _unfinished(solver)
        return np.array(solver.getSolution().col_value)

    def best_found(self, *, nodes: int) -> Found | None:
        """The best that turns up within a number of nodes, or None where none satisfy every row."""
        solver = self._solved({"mip_max_nodes": nodes})
        status = solver.getModelStatus()
        if status == HighsModelStatus.kInfeasible:
            return None
        if status not in (HighsModelStatus.kOptimal, HighsModelStatus.kSolutionLimit):
            raise _unfinished(solver)
        if solver.getInfo().primal_solution_status != _FEASIBLE:
            raise _unfinished(solver)
        return Found(np.array(solver.getSolution().col_value), status == HighsModelStatus.kOptimal)

    def _solved(self, options: _Options) -> _Highs:
        solver = _Highs()  # the bare solver: its wrapper prints a banner to standard output
        for name, setting in (_ALWAYS | options).items():
            solver.setOptionValue(name, setting)
        solver.passModel(self._model())
        solver.run()
        return solver

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


def _unfinished(solver: _Highs) -> FruitwrightError:
    status = solver.modelStatusToString(solver.getModelStatus())
    return FruitwrightError(f"the choice of trees could not be finished: {status}")
