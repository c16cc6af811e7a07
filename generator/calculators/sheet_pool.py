"""Layouts that were found, and plans made of them: sheet after sheet by worth, or combined in whole
numbers.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from generator.calculators.bar_choice import Column, choose
from generator.calculators.bar_job import Cut
from generator.calculators.bar_job import cost_of as cost_of_cuts
from generator.calculators.bar_master import Master
from generator.calculators.effort import Effort
from generator.calculators.sheet_fill import Guide, SheetFill
from generator.calculators.sheet_job import Layout, SheetJob, counts_of
from generator.calculators.sheet_table import sparse_table

Numbers = npt.NDArray[np.int64]
Reals = npt.NDArray[np.float64]

#: The highest worth of a piece; worths are whole numbers below it.
TOP_WORTH = 10_000_000

#: Layouts that are combined at once.
MOST_COLUMNS = 600


class SheetPool:
    """All layouts found for a job, with the linear program over them."""

    def __init__(self, job: SheetJob, points: int, effort: Effort) -> None:
        self.job = job
        self.areas = job.areas
        self.effort = effort
        self.table = sparse_table(job, points)
        self.filler = SheetFill(job, self.table)
        self.layouts: dict[Column, Layout] = {}
        areas = self.areas
        self.master = Master(areas, areas.demands, areas.limits, 4 * max(areas.prices) / areas.longest)

    def add(self, stock: int, layout: Layout) -> Column:
        """Keep a layout."""
        column = (stock, counts_of(layout, len(self.job.pieces)))
        if any(column[1]) and column not in self.layouts:
            self.layouts[column] = layout
            self.master.add([column])
        return column

    def plan(
        self,
        worths: Reals,
        paid: Sequence[float],
        left: Numbers,
        limits: Sequence[int | None],
        patience: int,
    ) -> list[Cut] | None:
        """Sheet after sheet of the most worth for its price; `patience` rounds spread the table over the
        pieces.
        """
        left, free = left.copy(), list(limits)
        whole = np.maximum(1, worths * (TOP_WORTH / max(1e-12, float(worths.max())))).astype(np.int64)
        cuts: list[Cut] = []
        while left.any():
            if self.effort.spent or not any(limit != 0 for limit in free):
                return None
            guide, spread = self._guide(whole, left, free, patience)
            best: tuple[float, Column] | None = None
            for stock, (width, height) in enumerate(self.job.sheets):
                if free[stock] == 0:
                    continue
                rest = left.copy()
                column = self.add(stock, self.filler.layout(width, height, spread, rest, guide, self.effort))
                merit = float((whole * (left - rest)).sum()) / max(1e-9, paid[stock])
                if merit > 0 and (best is None or merit > best[0]):
                    best = (merit, column)
            if best is None:
                return None
            stock, counts = best[1]
            taken = np.array(counts, dtype=np.int64)
            times = int((left[taken > 0] // taken[taken > 0]).min())
            limit = free[stock]
            if limit is not None:
                times = min(times, limit)
                free[stock] = limit - times
            left = left - times * taken
            cuts.append(Cut(stock, counts, times))
        return cuts

    def _guide(
        self, worths: Numbers, left: Numbers, limits: Sequence[int | None], patience: int
    ) -> tuple[Guide, Numbers]:
        """A table for the pieces that are left. While it repeats pieces too often, these are made worth
        less.
        """
        guide = self.filler.guide(worths, left, self.effort)
        spread = worths.copy()
        capacities = self.areas.capacities
        stock = max((s for s in range(len(limits)) if limits[s] != 0), key=lambda s: capacities[s])
        width, height = self.job.sheets[stock]
        for turn in range(patience):
            layout = self.table.layout(width, height, np.where(left > 0, spread, 0).tolist())
            counts = np.array(counts_of(layout, len(worths)), dtype=np.int64)
            over = np.maximum(0, counts - left)
            if not over.any():
                break
            share = over / np.maximum(1, counts)
            spread = np.maximum(1, spread * (1 - 0.15 * share / (1 + 0.1 * turn))).astype(np.int64)
            guide = self.filler.guide(spread, left, self.effort)
        return guide, spread

    def combine(self, dearest: int, enough: int, effort: Effort) -> list[Cut] | None:
        """The cheapest plan of at most `dearest` from the layouts at hand, the most useful of them if many."""
        columns = list(self.layouts)
        if len(columns) > MOST_COLUMNS:
            prices = self.master.solve(effort)
            worth = np.array(prices.pieces)
            waste = [
                self.job.prices[stock] - prices.stock[stock] - float(worth @ np.array(counts))
                for stock, counts in columns
            ]
            columns = [columns[place] for place in np.argsort(waste, kind="stable")[:MOST_COLUMNS]]
        _, cuts = choose(self.areas, columns, dearest, effort, enough)
        return cuts

    def cost(self, cuts: Sequence[Cut]) -> int:
        """The price of a plan, in whole steps."""
        return cost_of_cuts(self.areas, cuts)
