"""Which sets of bars can hold the pieces at all: sets of a given cost, against every proof by duals at once.

With several stock lengths the linear program may buy part of a bar; whole numbers of bars seldom cost as little.
Every proof by duals (see `core.bounds`) is an inequality on the numbers of bars; a set of bars that breaks one cannot
hold the pieces. A set that breaks none is tried, and if its linear program fails, gives the next proof. (Benders
1962, with the column generation as subproblem.)
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from generator.calculators.cutting.core.bounds import Duals, price_table
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob
from generator.calculators.cutting.core.knapsack import Whole

#: Most cells of all price tables together.
LARGEST_TABLES = 15_000_000


class BarSets:
    """The sets of bars of each cost up to `dearest` that no proof rules out."""

    def __init__(self, job: BarJob, dearest: int) -> None:
        self.job = job
        self.dearest = dearest
        self.proofs: list[Duals] = []
        self._order = sorted(range(len(job.prices)), key=lambda s: (-job.prices[s], -job.capacities[s]))
        self._tables: list[list[Whole]] = []

    def add(self, proof: Duals, budget: WorkBudget) -> bool:
        """Keep a proof; False when there is no more room for its tables."""
        if len(self._tables) * (len(self._order) + 1) * (self.dearest + 1) > LARGEST_TABLES:
            return False
        tables = [price_table((), (), (), self.dearest)]
        for stock in reversed(self._order):
            most, price, limit = proof.most[stock], self.job.prices[stock], self.job.limits[stock]
            tables.append(price_table([most], [price], [limit], self.dearest, tables[-1]))
        budget.spend(len(self._order) * (10 + self.dearest // 150))
        tables.reverse()
        self.proofs.append(proof)
        self._tables.append(tables)
        return True

    def breaks(self, proof: Duals, counts: Sequence[int]) -> bool:
        """Whether a proof rules a set of bars out."""
        return sum(most * count for most, count in zip(proof.most, counts, strict=True)) < proof.need

    def costs(self, least: int, budget: WorkBudget) -> Iterator[int]:
        """Costs from `least` that each proof by itself allows (also proofs added meanwhile)."""
        cost = least
        while cost <= self.dearest:
            allowed = np.ones(self.dearest + 1 - cost, dtype=np.bool_)
            for proof, tables in zip(self.proofs, self._tables, strict=True):
                allowed &= tables[0][cost:] >= proof.need
            budget.spend(len(self.proofs) * (5 + len(allowed) // 600))
            if not allowed.any():
                return
            cost += int(np.argmax(allowed))
            yield cost
            cost += 1

    def of_cost(self, cost: int, budget: WorkBudget) -> Iterator[tuple[int, ...]]:
        """Sets of bars of exactly `cost` that no proof (also none added meanwhile) rules out."""
        yield from self._place(0, cost, [0] * len(self._order), budget)

    def _place(
        self, level: int, cost: int, counts: list[int], budget: WorkBudget
    ) -> Iterator[tuple[int, ...]]:
        budget.spend(4 + len(self.proofs) * (8 + len(self._order)) // 8)
        if budget.spent or not self._may(level, cost, counts):
            return
        if level == len(self._order):
            yield tuple(counts)
            return
        stock = self._order[level]
        price, limit = self.job.prices[stock], self.job.limits[stock]
        if price == 0:
            choices = [limit or 0]
        else:
            most = cost // price if limit is None else min(cost // price, limit)
            choices = list(range(most, -1, -1))
        for count in choices:
            counts[stock] = count
            yield from self._place(level + 1, cost - count * price, counts, budget)
        counts[stock] = 0

    def _may(self, level: int, cost: int, counts: list[int]) -> bool:
        for proof, tables in zip(reversed(self.proofs), reversed(self._tables), strict=True):
            rest = int(tables[level][cost])
            if rest < 0:
                return False
            if rest + sum(most * count for most, count in zip(proof.most, counts, strict=True)) < proof.need:
                return False
        return True
