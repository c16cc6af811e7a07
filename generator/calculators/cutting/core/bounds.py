"""What bars must cost at least: whole numbers only, so that anyone can check the claim again.

Give every piece a dual value, its worth (a whole number, 0 or more). Let f(s) be the most worth that fits on one bar
of stock s (bounded knapsack). A plan's bars must together hold the worth of all pieces, so no plan is cheaper than
the cheapest set of bars, within the limits, whose f(s) add up to it. Any duals prove a bound; the lengths give the
material bound, the rounded duals of the linear program of Gilmore & Gomory (1961) give nearly always the best one.
(Safe rounding of duals: Held, Cook & Sewell, 2012.)
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob
from generator.calculators.cutting.core.knapsack import Knapsack, Whole, binary_split

#: Above this price (in whole steps), or with more cells to fill, the table over prices is left out and the bound rounds
#: up by the step alone.
LONGEST_PRICE_TABLE, MOST_PRICE_CELLS = 400_000, 8_000_000


@dataclass(frozen=True)
class Duals:
    """Duals of the pieces, with what they prove: `most[s]` fits on stock s, `need` is the worth of all pieces."""

    duals: tuple[int, ...]
    most: tuple[int, ...]
    need: int


def duals_by_length(job: BarJob) -> Duals:
    """The material bound's duals: a piece is worth its length, a bar holds no more than its capacity."""
    return Duals(job.lengths, job.capacities, job.total)


def measured(job: BarJob, duals: Sequence[int], table: Whole | None = None) -> Duals:
    """Work out what fits on each stock; `table` is the knapsack's table for the same duals, if at hand."""
    if table is None:
        table = Knapsack(job.lengths, job.demands, job.longest).table(duals)
    most = tuple(int(table[capacity]) for capacity in job.capacities)
    need = sum(worth * demand for worth, demand in zip(duals, job.demands, strict=True))
    return Duals(tuple(duals), most, need)


def price_table(
    most: Sequence[int],
    prices: Sequence[int],
    limits: Sequence[int | None],
    dearest: int,
    others: Whole | None = None,
) -> Whole:
    """The most worth that bars of exactly each price (0 to `dearest`) hold together; -1 where no bars make it.

    `others` is the table of other stock that is bought as well.
    """
    table = np.full(dearest + 1, -1, dtype=np.int64)
    table[0] = 0
    if others is not None:
        table = others.copy()
    for worth, price, limit in zip(most, prices, limits, strict=True):
        if price == 0:
            if limit is None:
                raise ValueError("stock without a price needs a limit")
            table[table >= 0] += worth * limit
            continue
        for part in binary_split(dearest // price if limit is None else min(limit, dearest // price)):
            size = part * price
            if size > dearest:
                continue
            before = table[: dearest + 1 - size]
            with_it = np.where(before >= 0, before + part * worth, -1)
            np.maximum(table[size:], with_it, out=table[size:])
    return table


def has_price_table(job: BarJob, dearest: int) -> bool:
    """Whether all prices up to the dearest are looked at one by one."""
    return dearest <= min(LONGEST_PRICE_TABLE, MOST_PRICE_CELLS // len(job.prices))


def possible_costs(job: BarJob, proof: Duals, dearest: int, budget: WorkBudget) -> Whole:
    """Every cost up to `dearest` that the duals allow, rising: bars of exactly that price hold what is needed."""
    budget.spend(len(job.prices) * (10 + dearest // 150))
    return np.flatnonzero(price_table(proof.most, job.prices, job.limits, dearest) >= proof.need)


def least_cost(job: BarJob, proof: Duals, dearest: int, budget: WorkBudget) -> int:
    """The least cost that the duals allow. A cost above `dearest` is reported as `dearest` + 1."""
    if job.one_price:
        if proof.need <= 0:
            return 0
        if proof.most[0] <= 0:
            return dearest + 1
        return min(dearest + 1, -(-proof.need // proof.most[0]) * job.prices[0])
    if not has_price_table(job, dearest):
        cost = cost_in_parts(job, proof)
        return dearest + 1 if cost is None else min(dearest + 1, math.ceil(cost))
    costs = possible_costs(job, proof, dearest, budget)
    return int(costs[0]) if len(costs) else dearest + 1


def cost_below(job: BarJob, proof: Duals, cost: int, budget: WorkBudget) -> int:
    """The dearest possible cost below `cost`, or -1."""
    if job.one_price:
        return cost - job.prices[0]
    if not has_price_table(job, cost):
        return cost - 1
    costs = possible_costs(job, proof, cost - 1, budget)
    return int(costs[-1]) if len(costs) else -1


def cost_above(job: BarJob, proof: Duals, cost: int, dearest: int, budget: WorkBudget) -> int:
    """The least possible cost above `cost`, at most `dearest`."""
    if job.one_price:
        return min(dearest, cost + job.prices[0])
    if not has_price_table(job, dearest):
        return min(dearest, cost + 1)
    costs = possible_costs(job, proof, dearest, budget)
    above = costs[costs > cost]
    return int(above[0]) if len(above) else dearest


def cost_in_parts(job: BarJob, proof: Duals) -> Fraction | None:
    """The least cost without whole bars: the best worth for the price first, the last bar in part. None if too few."""
    order = sorted(
        (s for s, most in enumerate(proof.most) if most > 0), key=lambda s: job.prices[s] / proof.most[s]
    )
    cost, need = Fraction(0), proof.need
    for stock in order:
        limit, most, price = job.limits[stock], proof.most[stock], job.prices[stock]
        if limit is None or limit * most >= need:
            return cost + Fraction(need * price, most)
        cost += limit * price
        need -= limit * most
    return cost if need <= 0 else None
