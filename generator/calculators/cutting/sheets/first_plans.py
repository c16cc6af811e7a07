"""First plans: sheet after sheet filled for the most worth. They set the fence seldom and leave large rests."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.fill import SheetFill, ValueTable
from generator.calculators.cutting.sheets.job import Layout, Sheet, SheetJob, counts_of
from generator.calculators.cutting.sheets.table import sparse_table

Numbers = npt.NDArray[np.int64]

#: The highest worth of a piece; values are whole numbers below it.
TOP_WORTH = 10_000_000

#: Points on an axis of the table that leads the layouts.
LEADING_POINTS = 110

#: How often a plan spreads its table over the pieces, and the power of the area that a piece is worth in it.
PLANS = ((0, 1.02), (4, 1.02), (10, 1.02), (0, 1.2), (4, 1.1), (10, 1.0))


class FirstPlans:
    """Makes plans for one job."""

    def __init__(self, job: SheetJob) -> None:
        self.job = job
        self.table = sparse_table(job, LEADING_POINTS)
        self.filler = SheetFill(job, self.table)

    def plan(self, spreads: int, power: float, budget: WorkBudget) -> list[Sheet] | None:
        """The sheet with the most worth for its price, then the next, each as often as the pieces last.

        None when the stock on hand or the budget runs out, or with slivers among the pieces.
        """
        if any(self.job.slivers):
            return None
        left = np.array(self.job.demands, dtype=np.int64)
        free = list(self.job.limits)
        areas = np.array(self.job.areas.lengths, dtype=np.float64) ** power
        values = np.maximum(1, areas * (TOP_WORTH / float(areas.max()))).astype(np.int64)
        sheets: list[Sheet] = []
        while left.any():
            if budget.left < self.table.work or not any(limit != 0 for limit in free):
                return None
            value_table, spread = self._value_table(values, left, free, spreads, budget)
            best: tuple[float, int, Layout] | None = None
            for stock, (width, height) in enumerate(self.job.sheets):
                if free[stock] == 0 or budget.spent:
                    continue
                rest = left.copy()
                layout = self.filler.layout(width, height, spread, rest, value_table, budget)
                merit = float((values * (left - rest)).sum()) / max(1e-9, self.job.prices[stock])
                if merit > 0 and (best is None or merit > best[0]):
                    best = (merit, stock, layout)
            if best is None:
                return None
            _, stock, layout = best
            taken = np.array(counts_of(layout, len(left)), dtype=np.int64)
            times = int((left[taken > 0] // taken[taken > 0]).min())
            limit = free[stock]
            if limit is not None:
                times = min(times, limit)
                free[stock] = limit - times
            left = left - times * taken
            sheets += [(stock, layout)] * times
        return sheets

    def _value_table(
        self, values: Numbers, left: Numbers, limits: list[int | None], spreads: int, budget: WorkBudget
    ) -> tuple[ValueTable, Numbers]:
        """A table for the pieces that are left. While it repeats pieces too often, these are made worth less."""
        value_table = self.filler.value_table(values, left, budget)
        spread = values.copy()
        capacities = self.job.areas.capacities
        stock = max((s for s in range(len(limits)) if limits[s] != 0), key=lambda s: capacities[s])
        width, height = self.job.sheets[stock]
        for turn in range(spreads):
            layout = self.table.layout(width, height, np.where(left > 0, spread, 0).tolist())
            counts = np.array(counts_of(layout, len(values)), dtype=np.int64)
            over = np.maximum(0, counts - left)
            if not over.any():
                break
            share = over / np.maximum(1, counts)
            spread = np.maximum(1, spread * (1 - 0.15 * share / (1 + 0.1 * turn))).astype(np.int64)
            value_table = self.filler.value_table(spread, left, budget)
        return value_table, spread
