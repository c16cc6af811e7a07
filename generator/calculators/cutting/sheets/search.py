"""The cheapest plan for sheets, with its bound: a plan is reworked, a bound raised, the gap between them settled."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from operator import ge, sub

from generator.calculators.cutting.core.bounds import (
    Duals,
    cost_above,
    cost_below,
    duals_by_length,
    least_cost,
)
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import Cut
from generator.calculators.cutting.core.master import Master
from generator.calculators.cutting.sheets.bounds import POINTS, SheetBound, coarse_table, raise_bound
from generator.calculators.cutting.sheets.choice import chosen_sheets
from generator.calculators.cutting.sheets.constructive import ConstructiveHeuristic
from generator.calculators.cutting.sheets.dual_functions import best_duals
from generator.calculators.cutting.sheets.exact import cheaper_plan
from generator.calculators.cutting.sheets.first_plans import PLANS, FirstPlans
from generator.calculators.cutting.sheets.job import (
    Layout,
    Sheet,
    SheetCut,
    SheetJob,
    counts_of,
    tidied,
    without,
)
from generator.calculators.cutting.sheets.local_search import LocalSearch
from generator.calculators.cutting.sheets.table import SheetTable

#: A finer table is tried when the budget is enough to fill it this many times.
FILLS = 4

#: Least work between two choices among the sheets that were filled.
SHORTEST = 400_000

#: With at most so many costs between bound and plan, a plan of the bound is looked for first.
FEW_COSTS = 4

#: Blocks that are looked at to settle a gap, and counts of pieces in all of them.
MOST_BLOCKS, MOST_COUNTS = 120_000, 6_000_000


@dataclass(frozen=True)
class SheetResult:
    """`cuts` is None when no plan was found."""

    cuts: tuple[SheetCut, ...] | None
    bound: int


class SheetSearch:
    """One search. It ends when the plan costs the bound, or the budget is spent."""

    def __init__(self, job: SheetJob, budget: WorkBudget) -> None:
        self.job = job
        self.areas = job.areas
        self.budget = budget
        self.first = FirstPlans(job)
        self.local_search = LocalSearch(job)
        self.sheets: list[Sheet] | None = None
        self.bound = SheetBound(0, duals_by_length(self.areas))
        self.table: SheetTable | None = None
        self._turns, self._enough = 0, 0

    @property
    def cost(self) -> int:
        """What the plan at hand costs; without one, more than any plan."""
        if self.sheets is None:
            return sum(self.job.prices) * sum(self.job.demands) + 1
        return self._cost(self.sheets)

    def _cost(self, sheets: list[Sheet]) -> int:
        return sum(self.job.prices[stock] for stock, _ in sheets)

    @property
    def done(self) -> bool:
        """Whether nothing remains to be found or proved."""
        return self.budget.spent or (self.sheets is not None and self.cost <= self.bound.cost)

    def run(self) -> SheetResult:
        """A first plan, the bound, then more of both until the budget is spent."""
        if self.has_room():
            self._begin(self.budget.part(self.budget.left // 8))
            if not self.done:
                self.prove_quickly(self.cost)
            # of several kinds of sheets a plan of the bound, if it is near, is rather found by enumerating
            near = not self.areas.one_price and not self.done and self._near(self.bound.proof)
            self._improve(self.budget.part(self.budget.left // (16 if near else 4)))
            if not self.done:
                self.raise_bound(self.cost, self.budget.part(self.budget.left // 2))
            if not self.done:
                self._enumerate()
            while not self.done:
                if self._improve(self.budget.part(self.budget.left), once=True):
                    self._enumerate()
        return SheetResult(self._cuts(), self.bound.cost)

    def has_room(self) -> bool:
        """Whether the stock on hand has the area at all."""
        stock = zip(self.areas.capacities, self.job.limits, strict=True)
        room = [None if limit is None else capacity * limit for capacity, limit in stock]
        return None in room or sum(area or 0 for area in room) >= self.areas.total

    def _begin(self, budget: WorkBudget) -> None:
        """First plans, until one costs the bound."""
        for spreads, power in PLANS:
            sheets = self.first.plan(spreads, power, budget)
            if sheets is not None:
                self._take(sheets)
            if self.done or budget.spent:
                break
        if self.sheets is None:
            rough = ConstructiveHeuristic(self.job, budget).rough_sheets()
            if rough is None:
                self._search_locally(budget)
            else:
                self._take(rough)

    def _take(self, sheets: list[Sheet]) -> None:
        """Keep a plan if it is cheaper than the one at hand."""
        if self.sheets is None or self._cost(sheets) < self.cost:
            self.sheets = sheets
            proof = self.bound.proof
            self.bound.cost = max(self.bound.cost, least_cost(self.areas, proof, self.cost, self.budget))

    def _improve(self, budget: WorkBudget, once: bool = False) -> bool:
        """Improve the plan (`once`, or until it costs the bound) as the budget lasts; whether it became cheaper."""
        before = self.cost
        while not self.done and not budget.spent and not (once and self.cost < before):
            self._search_locally(budget)
        return self.cost < before

    def _search_locally(self, budget: WorkBudget) -> None:
        """Rework the plan for a while, then choose among all sheets that were filled on the way.

        A plan of another cost needs other sheets: the wish is in turn the next lower cost and the bound.
        """
        lower = cost_below(self.areas, self.bound.proof, self.cost, self.budget)
        target = self.bound.cost if self._turns % 2 and self.bound.cost < lower else lower
        self._turns += 1
        before = self.cost
        sheets = self.local_search.run(
            self.sheets or [], target, budget.part(max(SHORTEST, budget.left // 16))
        )
        if sheets is not None:
            self._take(sheets)
        seen = len(self.local_search.seen)
        if self.cost == before and seen >= self._enough and not budget.spent:
            self._choose(budget)
            self._enough = seen * 3 // 2

    def _choose(self, budget: WorkBudget) -> None:
        """The cheapest choice among the sheets of all plans."""
        seen, pieces = self.local_search.seen, len(self.job.pieces)
        for stock, layout in self.sheets or ():
            seen.setdefault((stock, counts_of(layout, pieces)), layout)
        choice = chosen_sheets(self.areas, seen, self.cost - 1, self.bound.cost, budget)
        if choice.cuts is not None:
            self._take([(cut.stock, self._held(cut)) for cut in choice.cuts for _ in range(cut.times)])

    def _held(self, cut: Cut) -> Layout:
        """A layout that was seen, with the pieces of this cut and no others."""
        seen = self.local_search.seen
        if (cut.stock, cut.pattern) in seen:
            return seen[cut.stock, cut.pattern]
        _, counts = min(
            (sum(counts), counts)
            for stock, counts in seen
            if stock == cut.stock and all(map(ge, counts, cut.pattern))
        )
        return without(seen[cut.stock, counts], list(map(sub, counts, cut.pattern)))

    def prove_quickly(self, dearest: int) -> None:
        """The bound of dual feasible functions."""
        proof = best_duals(self.job, dearest, self.budget)
        cost = 0 if proof is None else least_cost(self.areas, proof, dearest, self.budget)
        if proof is not None and cost > self.bound.cost:
            self.bound = SheetBound(cost, proof)

    def raise_bound(self, dearest: int, budget: WorkBudget) -> None:
        """Raise the bound up to what a plan costs, by tables over all layouts."""
        areas = self.areas
        for points in POINTS:
            # A coarser table's layouts are not real: they would hold the finer program down.
            master = Master(areas, areas.demands, areas.limits, 4 * max(areas.prices) / areas.longest)
            pieces = len(self.job.pieces)
            master.add((stock, counts_of(layout, pieces)) for stock, layout in self.sheets or ())
            part = budget.part(budget.left // 3)
            table = coarse_table(self.job, points, part)
            if self.table is not None and part.left < FILLS * table.work:
                return
            self.table = table
            raise_bound(self.job, self.bound, table, master, dearest, part)
            exact = table.across.grain == 1 and table.up.grain == 1
            if budget.spent or dearest <= self.bound.cost or exact:
                return

    def _enumerate(self) -> None:
        """Try to settle what is left of the gap by enumerating the layouts of a cheaper plan."""
        while not self.done and self.sheets is not None and self.table and self.bound.last:
            part = self.budget.part(self.budget.left * 7 // 8)
            most = min(MOST_BLOCKS, MOST_COUNTS // len(self.job.pieces))
            target = self._wished(self.bound.last)
            if target < self.bound.cost:  # the duals of the last round leave no cost between
                self.bound.cost = self.cost
                return
            answer = cheaper_plan(self.job, self.table, self.bound.last, target, most, part)
            if answer.sheets is not None:
                self.sheets = answer.sheets
                if answer.settled:
                    self.bound.cost = self.cost
            elif answer.settled:
                self.bound.cost = cost_above(self.areas, self.bound.last, target, self.cost, self.budget)
            else:
                return

    def _wished(self, proof: Duals) -> int:
        """The cost to look for next: the bound where few lie between, for it needs the fewest layouts."""
        below = cost_below(self.areas, proof, self.cost, self.budget)
        return min(below, self.bound.cost) if self._near(proof) else below

    def _near(self, proof: Duals) -> bool:
        """Whether few costs are possible between plan and bound."""
        cost = self.cost
        for _ in range(FEW_COSTS):
            cost = cost_below(self.areas, proof, cost, self.budget)
            if cost <= self.bound.cost:
                return True
        return False

    def _cuts(self) -> tuple[SheetCut, ...] | None:
        """The plan with its layouts; equal sheets together."""
        if self.sheets is None:
            return None
        times = Counter((stock, tidied(layout)) for stock, layout in self.sheets)
        pieces = len(self.job.pieces)
        return tuple(
            SheetCut(stock, layout, counts_of(layout, pieces), count)
            for (stock, layout), count in times.items()
        )
