"""Column generation for bars: patterns that pay are found by the knapsack; prices prove a bound on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from generator.calculators.cutting.core.bounds import Duals, least_cost, measured
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob, Pattern
from generator.calculators.cutting.core.knapsack import Knapsack, Whole
from generator.calculators.cutting.core.master import Master, Prices

#: Patterns that one round of pricing adds at most for all stock together.
MOST_AT_ONCE = 40


@dataclass
class Relaxation:
    """The state of column generation: the proved bound, the duals that prove it, and those of the last round."""

    bound: int
    proof: Duals
    converged: list[Duals] = field(default_factory=list)


def scale_for(job: BarJob, dearest: int) -> int:
    """A power of two that keeps every sum of scaled duals well inside 64 bits."""
    free = sum(limit or 0 for price, limit in zip(job.prices, job.limits, strict=True) if price == 0)
    most = 4 * (dearest + 1 + free * max(job.prices))
    return 1 << max(8, min(30, 59 - most.bit_length()))


def prove(
    job: BarJob, master: Master, relaxation: Relaxation, dearest: int, target: int, budget: WorkBudget
) -> None:
    """Add patterns and raise the bound until no pattern pays, the bound reaches `target` or the budget is spent."""
    knapsack = Knapsack(job.lengths, job.demands, job.longest)
    scale = scale_for(job, dearest)
    master.demand(job.demands, job.limits)
    while not budget.spent:
        prices = master.solve(budget)
        duals = [int(value * scale) for value in prices.pieces]
        table = knapsack.table(duals, budget)
        proof = measured(job, duals, table)
        bound = least_cost(job, proof, dearest, budget)
        if bound > relaxation.bound:
            relaxation.bound, relaxation.proof = bound, proof
        if relaxation.bound >= target:
            return
        if not master.add(paying(master, job.demands, knapsack, table, duals, prices, scale, budget)):
            relaxation.converged.append(proof)
            return


def price_rest(
    job: BarJob,
    master: Master,
    dearest: int,
    demands: Sequence[int],
    limits: Sequence[int | None],
    budget: WorkBudget,
) -> Prices | None:
    """Add patterns for a part of the job until none pays; the part's prices, or None when the budget is spent."""
    knapsack = Knapsack(job.lengths, demands, job.longest)
    scale = scale_for(job, dearest)
    master.demand(demands, limits)
    while not budget.spent:
        prices = master.solve(budget)
        duals = [int(value * scale) for value in prices.pieces]
        table = knapsack.table(duals, budget)
        if not master.add(paying(master, demands, knapsack, table, duals, prices, scale, budget)):
            return prices
    return None


def paying(
    master: Master,
    demands: Sequence[int],
    knapsack: Knapsack,
    table: Whole,
    duals: Sequence[int],
    prices: Prices,
    scale: int,
    budget: WorkBudget,
) -> list[tuple[int, Pattern]]:
    """Patterns worth more than their stock costs: the best of each stock, and some that differ.

    The others hold, each, a piece that no pattern before holds: they cost no new table and spare many rounds.
    """
    job = master.job
    found: list[tuple[int, Pattern]] = []
    for stock, capacity in enumerate(job.capacities):
        paid = job.prices[stock] * scale - int(prices.stock[stock] * scale)
        least = paid + max(2, paid >> 26)
        if job.limits[stock] == 0 or int(table[capacity]) <= least:
            continue
        if budget.spent:
            break
        budget.spend(knapsack.reading + len(job.lengths))
        best = knapsack.pattern(capacity)
        held = list(best)
        found.append((stock, best))
        others = sorted(
            (-(duals[index] + int(table[capacity - length])), index)
            for index, length in enumerate(job.lengths)
            if demands[index] and length <= capacity
        )
        for merit, index in others:
            if -merit <= least or len(found) > MOST_AT_ONCE:
                break
            if held[index]:
                continue
            budget.spend(knapsack.reading)
            pattern = list(knapsack.pattern(capacity - job.lengths[index]))
            pattern[index] += 1
            if pattern[index] <= demands[index]:
                found.append((stock, tuple(pattern)))
                held = [now + count for now, count in zip(held, pattern, strict=True)]
    return found
