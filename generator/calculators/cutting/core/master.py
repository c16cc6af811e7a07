"""The linear program over patterns (Gilmore & Gomory 1961, 1963), kept warm while patterns are added."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob, Pattern
from generator.calculators.cutting.core.whole_program import QuietSolver


@dataclass(frozen=True)
class Prices:
    """A solved program: `cost`, duals of pieces (0 or more) and of limited stock (0 or less), use of patterns."""

    cost: float
    pieces: tuple[float, ...]
    stock: tuple[float, ...]
    use: tuple[float, ...]
    missing: float


class Master:
    """Minimise the price of patterns that make the demand. A missing piece costs `penalty` for each step of length."""

    def __init__(
        self, job: BarJob, demands: Sequence[int], limits: Sequence[int | None], penalty: float
    ) -> None:
        self.job = job
        self.columns: list[tuple[int, Pattern]] = []
        self._known: set[tuple[int, Pattern]] = set()
        self._limited = {
            stock: len(job.lengths) + row
            for row, stock in enumerate(s for s, limit in enumerate(limits) if limit is not None)
        }
        solver = QuietSolver()
        solver.setOptionValue("presolve", "off")
        solver.setOptionValue("simplex_strategy", 4)
        self._infinity = solver.getInfinity()
        for demand in demands:
            solver.addRow(float(demand), self._infinity, 0, np.array([], dtype=np.int32), np.array([]))
        for stock in self._limited:
            limit = limits[stock]
            solver.addRow(-self._infinity, float(limit or 0), 0, np.array([], dtype=np.int32), np.array([]))
        for row, length in enumerate(job.lengths):
            solver.addCol(
                length * penalty, 0.0, self._infinity, 1, np.array([row], dtype=np.int32), np.ones(1)
            )
        self._solver = solver

    def add(self, patterns: Iterable[tuple[int, Pattern]]) -> int:
        """Add the patterns that are new; returns how many were."""
        new = 0
        for stock, pattern in patterns:
            if (stock, pattern) in self._known:
                continue
            self._known.add((stock, pattern))
            self.columns.append((stock, pattern))
            rows = [row for row, count in enumerate(pattern) if count]
            values = [float(pattern[row]) for row in rows]
            if stock in self._limited:
                rows.append(self._limited[stock])
                values.append(1.0)
            self._solver.addCol(
                float(self.job.prices[stock]),
                0.0,
                self._infinity,
                len(rows),
                np.array(rows, dtype=np.int32),
                np.array(values),
            )
            new += 1
        return new

    def demand(self, demands: Sequence[int], limits: Sequence[int | None]) -> None:
        """Change what is still to be made and what is still on hand."""
        for row, demand in enumerate(demands):
            self._solver.changeRowBounds(row, float(demand), self._infinity)
        for stock, row in self._limited.items():
            self._solver.changeRowBounds(row, -self._infinity, float(limits[stock] or 0))

    def solve(self, budget: WorkBudget) -> Prices:
        """Solve from the last basis."""
        solver = self._solver
        solver.run()
        info = solver.getInfo()
        rows = len(self.job.lengths)
        columns = len(self.columns)
        budget.spend(300 + columns // 2 + info.simplex_iteration_count * (20 + rows // 3 + columns // 20))
        solution = solver.getSolution()
        duals = solution.row_dual
        stock = [0.0] * len(self.job.capacities)
        for index, row in self._limited.items():
            stock[index] = min(0.0, duals[row])
        values = solution.col_value
        missing = sum(
            value * length
            for value, length in zip(values[:rows], self.job.lengths, strict=True)
            if value > 1e-9
        )
        return Prices(
            info.objective_function_value,
            tuple(max(0.0, dual) for dual in duals[:rows]),
            tuple(stock),
            tuple(values[rows:]),
            missing,
        )
