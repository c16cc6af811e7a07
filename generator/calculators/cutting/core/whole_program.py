"""The solver of linear programs in whole numbers, asked so that it is silent and its work is counted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any

import highspy
import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget


class QuietSolver(highspy.Highs):
    """HiGHS with one thread and no output. It never looks at the clock, so the same program gives the same answer."""

    def __init__(self) -> None:
        # The callbacks that the class itself sets up print a banner before output can be switched off.
        super(highspy.Highs, self).__init__()
        self.setOptionValue("output_flag", False)
        self.setOptionValue("threads", 1)
        self.setOptionValue("parallel", "off")
        self.setOptionValue("random_seed", 0)


class Outcome(Enum):
    """How the search ended. `NONE_EXISTS` is the solver's word and rests on its floating-point tolerances."""

    BEST = "best"
    FOUND = "found"
    NONE_EXISTS = "none exists"
    NOT_FOUND = "not found"


@dataclass(frozen=True)
class WholeAnswer:
    """`values` are whole; empty when nothing was found. `bound`: no answer costs less, if the solver is right."""

    outcome: Outcome
    values: tuple[int, ...] = ()
    bound: float = float("-inf")


@dataclass
class WholeProgram:
    """Minimise costs; rows have a lower and an upper end; columns are whole from 0 to their `most`."""

    lower: list[float]
    upper: list[float]

    def __post_init__(self) -> None:
        self.costs: list[float] = []
        self.most: list[float] = []
        self.starts: list[int] = [0]
        self.rows: list[int] = []
        self.values: list[float] = []

    def column(self, cost: float, most: float, rows: Sequence[int], values: Sequence[float]) -> None:
        """Add one unknown that is in `rows` with `values`."""
        self.costs.append(cost)
        self.most.append(most)
        self.rows.extend(rows)
        self.values.extend(values)
        self.starts.append(len(self.rows))

    def solve(
        self,
        budget: WorkBudget,
        start: Sequence[int] | None = None,
        enough: float | None = None,
        nodes: int = 2_000,
        quick: bool = False,
    ) -> WholeAnswer:
        """Search until done, the budget is spent or an answer of cost `enough` is found.

        `quick` is for what would be nice to have: no restarts, few cutting planes and no programs within the program,
        which take most of the time and seldom find more.
        """
        solver = QuietSolver()
        solver.setOptionValue("mip_max_nodes", nodes)
        if quick:
            solver.setOptionValue("mip_allow_restart", False)
            solver.setOptionValue("mip_pool_soft_limit", 100)
            solver.setOptionValue("mip_heuristic_run_rins", False)
            solver.setOptionValue("mip_heuristic_run_rens", False)
        if enough is not None:
            solver.setOptionValue("objective_target", enough)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 0.999999 if self._whole_costs() else 1e-6)
        solver.passModel(self._model())
        if start is not None:
            solution = highspy.HighsSolution()
            solution.col_value = [float(value) for value in start]
            solver.setSolution(solution)
        self._count(solver, budget)
        solver.run()
        budget.spend(max(0, solver.getInfo().simplex_iteration_count) * (10 + len(self.rows) // 100))
        return self._answer(solver)

    def _whole_costs(self) -> bool:
        return all(float(cost).is_integer() for cost in self.costs)

    def _model(self) -> highspy.HighsLp:
        model = highspy.HighsLp()
        size = len(self.costs)
        model.num_col_, model.num_row_ = size, len(self.lower)
        model.col_cost_ = np.array(self.costs)
        model.col_lower_, model.col_upper_ = np.zeros(size), np.array(self.most)
        model.row_lower_, model.row_upper_ = np.array(self.lower), np.array(self.upper)
        model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
        model.a_matrix_.start_ = np.array(self.starts, dtype=np.int32)
        model.a_matrix_.index_ = np.array(self.rows, dtype=np.int32)
        model.a_matrix_.value_ = np.array(self.values, dtype=np.float64)
        model.integrality_ = [highspy.HighsVarType.kInteger] * size
        return model

    def _count(self, solver: QuietSolver, budget: WorkBudget) -> None:
        """Every time the solver asks whether to stop counts as one step; it asks at the same places every run."""
        step = 200 + len(self.rows) // 6
        budget.spend(step * 10)

        def ask(_kind: Any, _text: str, _out: Any, answer: Any, _data: Any) -> None:
            budget.spend(step)
            if budget.spent:
                answer.user_interrupt = True

        solver.setCallback(ask, None)
        solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)

    def _answer(self, solver: QuietSolver) -> WholeAnswer:
        status = solver.getModelStatus()
        if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
            return WholeAnswer(Outcome.NONE_EXISTS)
        info = solver.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return WholeAnswer(Outcome.NOT_FOUND, (), info.mip_dual_bound)
        values = tuple(round(value) for value in solver.getSolution().col_value)
        best = status == highspy.HighsModelStatus.kOptimal
        return WholeAnswer(Outcome.BEST if best else Outcome.FOUND, values, info.mip_dual_bound)
