"""The cheapest plan for sheets, with its bound: rounds of plans by worth, dives, and all layouts combined."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from generator.calculators.bar_bounds import Worths, least_cost, worths_by_length
from generator.calculators.bar_job import Cut, trimmed_to_demand
from generator.calculators.bar_master import Master
from generator.calculators.effort import Effort
from generator.calculators.sheet_bounds import POINTS, SheetBound, coarse_table, raise_bound
from generator.calculators.sheet_exact import cheaper_plan
from generator.calculators.sheet_job import SheetCut, SheetJob, tidied, without
from generator.calculators.sheet_pool import Reals, SheetPool
from generator.calculators.sheet_table import SheetTable

#: Points on an axis of the table that leads the layouts.
LEADING_POINTS = 110

#: How often the first rounds spread the table, and the power of the area that a piece is worth there.
FIRST_ROUNDS = ((0, 1.02), (4, 1.02), (10, 1.02), (0, 1.2), (4, 1.1), (10, 1.0))

#: Patience and noise of the later rounds, in turn.
ROUNDS = ((0, 0.0), (4, 0.0), (0, 0.1), (10, 0.0), (0, 0.3), (4, 0.2), (0, 0.5))

#: Blocks that are looked at to settle a gap.
MOST_BLOCKS = 120_000

#: Plans in one later round.
PLANS = 10


@dataclass(frozen=True)
class SheetResult:
    """`cuts` is None when no plan was found."""

    cuts: tuple[SheetCut, ...] | None
    bound: int
    proof: Worths
    grain: tuple[int, int]
    counted: bool


class SheetSearch:
    """One search. It ends when the plan costs the bound, or the effort is spent."""

    def __init__(self, job: SheetJob, effort: Effort) -> None:
        self.job = job
        self.areas = job.areas
        self.effort = effort
        self.pool = SheetPool(job, LEADING_POINTS, effort)
        self.cuts: list[Cut] | None = None
        self.bound = SheetBound(0, worths_by_length(self.areas))
        self.demands = np.array(job.demands, dtype=np.int64)
        self.table: SheetTable | None = None
        self.tried = -1
        self.counted = False
        self.noise = np.random.default_rng(1)

    @property
    def cost(self) -> int:
        """What the plan at hand costs; without one, more than any plan."""
        if self.cuts is None:
            return sum(self.job.prices) * sum(self.job.demands) + 1
        return self.pool.cost(self.cuts)

    @property
    def done(self) -> bool:
        """Whether nothing remains to be found or proved."""
        return self.effort.spent or (self.cuts is not None and self.cost <= self.bound.cost)

    def take(self, cuts: list[Cut] | None) -> None:
        """Keep a plan if it is cheaper than the one at hand."""
        if cuts is not None and self.pool.cost(cuts) < self.cost:
            self.cuts = cuts

    def run(self) -> SheetResult:
        """First plans, the bound, then rounds until the effort is spent."""
        if not self._has_room():
            return SheetResult(None, 0, self.bound.proof, (1, 1), False)
        self._first_rounds()
        if not self.done:
            self._raise_bound()
        number = 0
        self._count_out()
        while not self.done:
            self._round(*ROUNDS[number % len(ROUNDS)])
            if not self.done and self.cuts is not None:
                part = self.effort.part(self.effort.left // 4)
                self.take(self.pool.combine(self.cost - 1, self.bound.cost, part))
            if not self.done:
                self._count_out()
            if not self.done and number % 3 == 2:
                self._dive(number // 3)
            number += 1
        return SheetResult(self._layouts(), self.bound.cost, self.bound.proof, self.bound.grain, self.counted)

    def _has_room(self) -> bool:
        """Whether the stock on hand has the area at all."""
        stock = zip(self.areas.capacities, self.job.limits, strict=True)
        room = [None if limit is None else capacity * limit for capacity, limit in stock]
        return None in room or sum(area or 0 for area in room) >= self.areas.total

    def _first_rounds(self) -> None:
        area = np.array(self.areas.lengths, dtype=np.float64)
        for patience, power in FIRST_ROUNDS:
            self.take(self.pool.plan(area**power, self.job.prices, self.demands, self.job.limits, patience))
            if self.cuts is not None:
                self.bound.cost = max(
                    self.bound.cost, least_cost(self.areas, worths_by_length(self.areas), self.cost)
                )
            if self.done:
                return

    def _raise_bound(self) -> None:
        areas = self.areas
        for points in POINTS:
            # A coarser table's layouts are not real: they would hold the finer program down.
            master = Master(areas, areas.demands, areas.limits, 4 * max(areas.prices) / areas.longest)
            part = self.effort.part(self.effort.left // 3)
            self.table = table = coarse_table(self.job, points)
            raise_bound(self.job, self.bound, table, master, self.cost, part)
            exact = table.across.grain == 1 and table.up.grain == 1
            if self.done or exact:
                return

    def _count_out(self) -> None:
        """Try to settle what is left of the gap by counting out the layouts of a cheaper plan."""
        if (
            self.done
            or self.cuts is None
            or self.table is None
            or self.bound.last is None
            or self.cost == self.tried
        ):
            return
        self.tried = self.cost
        while not self.done:
            part = self.effort.part(self.effort.left // 3)
            answer = cheaper_plan(self.job, self.table, self.bound.last, self.cost, MOST_BLOCKS, part)
            if answer.none:
                self._settle()
            if answer.cuts is None:
                return
            for (stock, _), layout in answer.layouts.items():
                self.pool.add(stock, layout)
            self.take(answer.cuts)
            if answer.best:
                self._settle()

    def _settle(self) -> None:
        """No plan is cheaper than the one at hand."""
        self.bound.cost = self.cost
        self.counted = True

    def _round(self, patience: int, noise: float) -> None:
        """Plans by the prices of the linear program, which learns the layouts of each."""
        self.pool.master.demand(self.job.demands, self.job.limits)
        for _ in range(PLANS):
            worths, paid = self._prices(noise)
            self.take(self.pool.plan(worths, paid, self.demands, self.job.limits, patience))
            if self.done:
                return

    def _prices(self, noise: float) -> tuple[Reals, list[float]]:
        prices = self.pool.master.solve(self.effort)
        area = np.array(self.areas.lengths, dtype=np.float64)
        worths = np.array(prices.pieces) + 1e-4 * area * max(self.job.prices) / self.areas.longest
        if noise:
            worths = worths * (1 + self.noise.uniform(-noise, noise, len(worths)))
        paid = [price - dual for price, dual in zip(self.job.prices, prices.stock, strict=True)]
        return worths, paid

    def _dive(self, number: int) -> None:
        """Fix layouts that the linear program uses, plan the rest anew; see `bar_dive`."""
        left, limits = self.demands.copy(), list(self.job.limits)
        fixed: list[Cut] = []
        doubts = number
        while left.any() and not self.done:
            self.pool.master.demand(left.tolist(), limits)
            for turn in range(5):
                worths, paid = self._prices(0.1 * (turn % 2))
                rest = self.pool.plan(worths, paid, left, limits, (0, 4)[turn % 2])
                if rest is not None:
                    self.take([*fixed, *rest])
                if self.done:
                    return
            prices = self.pool.master.solve(self.effort)
            if self.pool.cost(fixed) + prices.cost > self.cost - 1 + 1e-6:
                return
            use = sorted((-value, place) for place, value in enumerate(prices.use) if value > 1e-6)
            if not use:
                return
            sure = [(place, int(-value + 1e-6)) for value, place in use if -value >= 1 - 1e-6]
            if not sure:
                sure = [(use[min(doubts % 3, len(use) - 1)][1], 1)]
                doubts //= 3
            for rank, (place, times) in enumerate(sure):
                stock, counts = self.pool.master.columns[place]
                for _ in range(times):
                    part = np.minimum(np.array(counts, dtype=np.int64), left)
                    limit = limits[stock]
                    if not part.any() or limit == 0 or (rank and part.tolist() != list(counts)):
                        break
                    limits[stock] = None if limit is None else limit - 1
                    left = left - part
                    fixed.append(Cut(stock, tuple(part.tolist()), 1))

    def _layouts(self) -> tuple[SheetCut, ...] | None:
        """The plan with its layouts; pieces that a layout has too many of become waste."""
        if self.cuts is None:
            return None
        result = []
        for cut in trimmed_to_demand(self.areas, self.cuts):
            holding = [
                (sum(counts) - sum(cut.pattern), counts)
                for stock, counts in self.pool.layouts
                if stock == cut.stock
                and all(has >= wants for has, wants in zip(counts, cut.pattern, strict=True))
            ]
            counts = min(holding)[1]
            surplus = [has - wants for has, wants in zip(counts, cut.pattern, strict=True)]
            layout = tidied(without(self.pool.layouts[cut.stock, counts], surplus))
            result.append(SheetCut(cut.stock, layout, cut.pattern, cut.times))
        return tuple(result)
