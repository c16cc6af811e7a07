"""The cheapest plan for bars, with its proof: rules, linear program, diving, and all near patterns at last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.calculators.cutting.bars.constructive import first_plan
from generator.calculators.cutting.bars.diving import diving_heuristic
from generator.calculators.cutting.bars.stock_sets import BarSets
from generator.calculators.cutting.bars.trial import BarTrial
from generator.calculators.cutting.core.bounds import (
    cost_below,
    duals_by_length,
    has_price_table,
    least_cost,
)
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import Relaxation, prove
from generator.calculators.cutting.core.covering import Column, choose
from generator.calculators.cutting.core.job import BarJob, Cut, cost_of
from generator.calculators.cutting.core.master import Master
from generator.calculators.cutting.core.patterns import enumerate_patterns, needs_for_cost
from generator.calculators.cutting.core.whole_program import Outcome

#: Dives before and after the patterns at hand are combined in whole numbers.
FIRST_DIVES, ALL_DIVES = 4, 16

#: More near patterns than this are not enumerated. Shop jobs hardly need it; of 47 published problems one costs a bar
#: more without it, and one is not proved (measured, at the same budget).
MOST_PATTERNS = 40_000

#: With more stock lengths the sets of bars are not tried one by one.
MOST_STOCKS = 60


@dataclass(frozen=True)
class BarResult:
    """`cuts` is None when no plan was found; no plan costs less than `bound`."""

    cuts: tuple[Cut, ...] | None
    bound: int
    columns: tuple[Column, ...]


class BarSearch:
    """One search. It ends when a plan of cost `enough` (or the bound) is found or the bound exceeds `enough`."""

    def __init__(
        self, job: BarJob, budget: WorkBudget, enough: int | None = None, dearest: int | None = None
    ) -> None:
        self.job = job
        self.budget = budget
        self.enough = enough
        self.cuts: list[Cut] | None = None
        self.dearest = sum(job.prices) * sum(job.demands) if dearest is None else dearest
        proof = duals_by_length(job)
        self.relaxation = Relaxation(0, proof)
        self.master: Master | None = None

    @property
    def bound(self) -> int:
        """The proved bound so far."""
        return self.relaxation.bound

    @property
    def limit(self) -> int:
        """The dearest cost that is still of use: below the plan at hand."""
        top = self.dearest if self.cuts is None else cost_of(self.job, self.cuts) - 1
        return top if self.enough is None or self.cuts is None else min(top, self.enough)

    @property
    def done(self) -> bool:
        """Whether nothing remains to be found or proved."""
        if self.enough is not None and self.bound > self.enough:
            return True
        if self.cuts is None:
            return self.bound > self.dearest
        cost = cost_of(self.job, self.cuts)
        return cost <= self.bound or (self.enough is not None and cost <= self.enough)

    def take(self, cuts: list[Cut] | None) -> None:
        """Keep a plan if it is cheaper than the one at hand."""
        if cuts is not None and (self.cuts is None or cost_of(self.job, cuts) < cost_of(self.job, self.cuts)):
            self.cuts = cuts

    def run(self, columns: Iterable[Column] = ()) -> BarResult:
        """Search step by step; every step ends early when the search is done."""
        self.take(first_plan(self.job, self.budget))
        if self.cuts is not None:
            self.dearest = min(self.dearest, cost_of(self.job, self.cuts))
        self.relaxation.bound = least_cost(self.job, self.relaxation.proof, self.dearest, self.budget)
        # to enumerate is dear where much is open, and cheap where the bound is near
        prove = [self._enumerate, self._combine] if self.job.one_price else [self._try_sets]
        steps = [self._relax, self._first_dives, *prove, self._more_dives]
        for step in steps:
            if self.done or self.budget.spent:
                break
            if step == self._relax:
                self._open(columns)
            step()
        known = () if self.master is None else tuple(self.master.columns)
        cuts = None if self.cuts is None else tuple(self.cuts)
        return BarResult(cuts, self.bound, known)

    def _open(self, columns: Iterable[Column]) -> None:
        job = self.job
        self.master = Master(job, job.demands, job.limits, 4 * max(1, *job.prices) / job.longest)
        if self.cuts is not None:
            self.master.add((cut.stock, cut.pattern) for cut in self.cuts)
        self.master.add(columns)

    def _relax(self) -> None:
        assert self.master is not None
        target = self.dearest + 1 if self.enough is None else min(self.dearest, self.enough) + 1
        prove(self.job, self.master, self.relaxation, self.dearest, target, self.budget)

    def _first_dives(self) -> None:
        self._dives(range(FIRST_DIVES))

    def _more_dives(self) -> None:
        self._dives(range(FIRST_DIVES, ALL_DIVES))

    def _dives(self, numbers: range) -> None:
        assert self.master is not None
        for number in numbers:
            if self.done or self.budget.spent:
                return
            self.take(diving_heuristic(self.job, self.master, self.limit, number, self.budget))

    def _combine(self) -> None:
        """Choose among the patterns at hand."""
        assert self.master is not None
        part = self.budget.part(self.budget.left // 4)
        _, cuts = choose(self.job, self.master.columns, self.limit, part, self.bound, quick=True)
        self.take(cuts)

    def _enumerate(self) -> None:
        """Enumerate every pattern that a cheaper plan may use, and choose among them: a plan, or a proof."""
        if not self.relaxation.converged:
            return
        proof = self.relaxation.converged[-1]
        target = min(self.limit, cost_below(self.job, proof, self.limit + 1, self.budget))
        if target < self.bound:
            self._raise_bound(self.limit + 1)
            return
        needs = needs_for_cost(self.job, proof, target)
        columns = enumerate_patterns(self.job, proof.duals, needs, MOST_PATTERNS, self.budget)
        if columns is None:
            return
        outcome, cuts = (
            (Outcome.NONE_EXISTS, None)
            if not columns
            else choose(self.job, columns, target, self.budget.part(self.budget.left * 2 // 3), self.bound)
        )
        self.take(cuts)
        if outcome is Outcome.NONE_EXISTS:
            self._raise_bound(target + 1)
        elif outcome is Outcome.BEST and cuts is not None:
            self._raise_bound(cost_of(self.job, cuts))

    def _try_sets(self) -> None:
        """Try the sets of bars in the order of their cost; the first that holds the pieces is the cheapest."""
        top = self.limit if self.cuts is None else max(self.limit, cost_of(self.job, self.cuts))
        if len(self.job.prices) > MOST_STOCKS or not has_price_table(self.job, top):
            self._enumerate()
            return
        sets = BarSets(self.job, top)
        for proof in (duals_by_length(self.job), *self.relaxation.converged):
            sets.add(proof, self.budget)
        trial = BarTrial(self.job, sets, self.budget)
        for cost in sets.costs(self.bound, self.budget):
            if self.done or self.budget.spent or cost > self.limit:
                break
            self._raise_bound(cost)
            if not self._try_cost(cost, sets, trial):
                return
        if not self.budget.spent:
            self._raise_bound(self.limit + 1)

    def _try_cost(self, cost: int, sets: BarSets, trial: BarTrial) -> bool:
        """Try the sets of bars of one cost; False when one of them is neither proved nor refuted."""
        all_settled = True
        for counts in sets.of_cost(cost, self.budget):
            cuts, settled = trial.run(counts)
            if cuts is not None:
                self.take(cuts)
                return True
            all_settled &= settled
        return all_settled and not self.budget.spent

    def _raise_bound(self, bound: int) -> None:
        if bound > self.bound:
            self.relaxation.bound = bound
