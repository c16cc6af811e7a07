"""Whether a given set of bars holds the pieces: a plan, a proof that it does not, or neither."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.calculators.cutting.bars.diving import diving_heuristic
from generator.calculators.cutting.bars.stock_sets import BarSets
from generator.calculators.cutting.core.bounds import Duals, measured
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import paying
from generator.calculators.cutting.core.covering import choose
from generator.calculators.cutting.core.job import BarJob, Cut
from generator.calculators.cutting.core.knapsack import Knapsack
from generator.calculators.cutting.core.master import Master
from generator.calculators.cutting.core.patterns import enumerate_patterns, needs_for_bars
from generator.calculators.cutting.core.whole_program import Outcome

#: Duals are rounded down to this part of the longest bar.
SCALE = 1 << 30

#: More near patterns than this are not enumerated for one set of bars. Without enumerating, 3 of 300 random jobs of
#: several stock lengths cost more, and 9 off-cuts are not shown to be the longest (measured, at the same budget).
MOST_PATTERNS = 6_000

DIVES = 3


class BarTrial:
    """Tries sets of bars one after the other; patterns and proofs of one serve the next."""

    def __init__(self, job: BarJob, sets: BarSets, budget: WorkBudget) -> None:
        self.job = job
        self.sets = sets
        self.budget = budget
        free = replace(job, prices=(0,) * len(job.prices))
        self.master = Master(free, job.demands, [0] * len(job.prices), 1 / job.longest)
        self.knapsack = Knapsack(job.lengths, job.demands, job.longest)

    def run(self, counts: Sequence[int]) -> tuple[list[Cut] | None, bool]:
        """A plan with these bars (settled), or none: settled when there is none, else given up."""
        job = replace(self.job, limits=tuple(counts))
        proof, fits = self._refute(counts)
        if not fits:
            return None, proof
        dearest = sum(price * count for price, count in zip(job.prices, counts, strict=True))
        for number in range(DIVES):
            cuts = diving_heuristic(job, self.master, dearest, number, self.budget)
            if cuts is not None:
                return cuts, True
        _, cuts = choose(job, self.master.columns, dearest, self.budget.part(self.budget.left // 20), dearest)
        if cuts is not None:
            return cuts, True
        return self._enumerate(job, counts, dearest)

    def _refute(self, counts: Sequence[int]) -> tuple[bool, bool]:
        """(refuted, the linear program holds the pieces)."""
        self.master.demand(self.job.demands, counts)
        while not self.budget.spent:
            prices = self.master.solve(self.budget)
            if prices.missing <= 1e-7:
                return False, True
            duals = [int(value * SCALE) for value in prices.pieces]
            table = self.knapsack.table(duals, self.budget)
            proof = measured(self.job, duals, table)
            if self.sets.breaks(proof, counts):
                self.sets.add(proof, self.budget)
                return True, False
            new = paying(
                self.master, self.job.demands, self.knapsack, table, duals, prices, SCALE, self.budget
            )
            if not self.master.add(new):
                return False, True
        return False, False

    def _enumerate(self, job: BarJob, counts: Sequence[int], dearest: int) -> tuple[list[Cut] | None, bool]:
        proof = min(self.sets.proofs, key=lambda p: self._waste(p, counts))
        columns = enumerate_patterns(
            job, proof.duals, needs_for_bars(proof, counts), MOST_PATTERNS, self.budget
        )
        if columns is None:
            return None, False
        if not columns:
            return None, True
        outcome, cuts = choose(job, columns, dearest, self.budget.part(self.budget.left // 4), dearest)
        return cuts, outcome is Outcome.NONE_EXISTS or cuts is not None

    @staticmethod
    def _waste(proof: Duals, counts: Sequence[int]) -> float:
        """What the set of bars holds more than it must, as a share of what a bar holds."""
        spare = sum(most * count for most, count in zip(proof.most, counts, strict=True)) - proof.need
        return spare / max(1, *proof.most)
