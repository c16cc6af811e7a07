"""Dives: fix patterns that the linear program uses whole, price the rest anew, until every piece is on a bar.

Follows the limited-discrepancy dives of Sadykov et al. (2019): dive number n takes, at its first doubtful places,
another pattern than the dives before.
"""

from __future__ import annotations

from generator.calculators.cutting.bars.constructive import best_fit, fill_up
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import price_rest
from generator.calculators.cutting.core.job import BarJob, Cut, Pattern, cost_of, trimmed_to_demand
from generator.calculators.cutting.core.master import Master, Prices

#: Duals of pieces are rounded down to this part of a price step where they only guide.
GUIDE = 1_000_000


class Rest:
    """What a dive has still to make, the bars it may still take, and the cuts that it has fixed."""

    def __init__(self, job: BarJob) -> None:
        self.job = job
        self.left = list(job.demands)
        self.limits = list(job.limits)
        self.cuts: list[Cut] = []

    def fix(self, stock: int, pattern: Pattern, times: int, clip: bool) -> None:
        """Cut a pattern `times` times; where less is left to make, not at all, or (`clip`) what is left."""
        limit = self.limits[stock]
        times = times if limit is None else min(times, limit)
        while times > 0:
            part = tuple(min(count, rest) for count, rest in zip(pattern, self.left, strict=True))
            if not any(part) or (part != pattern and not clip):
                return
            whole = [rest // count for count, rest in zip(part, self.left, strict=True) if count]
            repeat = min(times, *whole)
            self.left = [rest - repeat * count for count, rest in zip(part, self.left, strict=True)]
            self.cuts.append(Cut(stock, part, repeat))
            times -= repeat
            if limit is not None:
                limit -= repeat
                self.limits[stock] = limit

    def finish(self, prices: Prices, dearest: int, budget: WorkBudget) -> list[Cut] | None:
        """The whole plan, with the rest placed by rule, if it costs at most `dearest`."""
        spent = cost_of(self.job, self.cuts)
        worth = [int(value * GUIDE) for value in prices.pieces]
        plans = [best_fit(self.job, self.left, self.limits, budget)]
        if any(worth):
            plans.append(fill_up(self.job, self.left, self.limits, worth, budget))
        for plan in plans:
            if plan is not None and spent + cost_of(self.job, plan) <= dearest:
                return trimmed_to_demand(self.job, [*self.cuts, *plan])
        return None


def diving_heuristic(
    job: BarJob, master: Master, dearest: int, number: int, budget: WorkBudget
) -> list[Cut] | None:
    """One dive for a plan of at most `dearest`; None when it ends above."""
    rest = Rest(job)
    doubts = number
    while any(rest.left) and not budget.spent:
        prices = price_rest(job, master, dearest, rest.left, rest.limits, budget)
        if prices is None or prices.missing > 1e-6:
            return None
        if cost_of(job, rest.cuts) + prices.cost > dearest + 1e-6:
            return None
        plan = rest.finish(prices, dearest, budget)
        if plan is not None:
            return plan
        fixed, doubts = _to_fix(prices.use, doubts)
        for rank, (place, times) in enumerate(fixed):
            stock, pattern = master.columns[place]
            rest.fix(stock, pattern, times, clip=rank == 0)
    if any(rest.left) or cost_of(job, rest.cuts) > dearest:
        return None
    return trimmed_to_demand(job, rest.cuts)


def _to_fix(use: tuple[float, ...], doubts: int) -> tuple[list[tuple[int, int]], int]:
    """Patterns used once or more, rounded down; else one in part: the largest, or a later one while in doubt."""
    whole = [(place, int(value + 1e-6)) for place, value in enumerate(use) if value >= 1 - 1e-6]
    if whole:
        return whole, doubts
    part = sorted((-value, place) for place, value in enumerate(use) if value > 1e-6)
    choice = min(doubts % 3, len(part) - 1)
    return [(part[choice][1], 1)], doubts // 3
