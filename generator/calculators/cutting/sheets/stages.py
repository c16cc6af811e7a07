"""Plans within what a saw can do and what its operator asks: stages, rules of the cut, no part too long for the fence.

In three stages strips are filled (`strips`), within the operator's rules and without; the bound (`strip_bound`) is that
of plans in three stages. With more stages, or a track saw, it is that of all plans.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.sheets.constructive import ConstructiveHeuristic
from generator.calculators.cutting.sheets.job import NO_RULE, SheetCut, SheetJob, cost_of, stages
from generator.calculators.cutting.sheets.offcut import larger_offcut
from generator.calculators.cutting.sheets.search import SheetSearch
from generator.calculators.cutting.sheets.sections import all_in_sections
from generator.calculators.cutting.sheets.strip_bound import raise_strip_bound
from generator.calculators.cutting.sheets.strip_exact import settle
from generator.calculators.cutting.sheets.strip_search import StripSearch

#: The most stages of strips: off the sheet, across the strip, and trimmed.
STRIPS = 3

#: One part in so many of the budget is for strips, where any number of stages is free.
STRIPS_FIRST = 20


@dataclass(frozen=True)
class StagedPlan:
    """The cheapest plan, and the cheapest within the operator's rules; None where none was found or asked for."""

    cuts: Sequence[SheetCut] | None
    bound: int
    clean: Sequence[SheetCut] | None = None


def search(job: SheetJob, budget: WorkBudget, offcut_part: int = 2) -> StagedPlan:
    """The cheapest plan that is found within the job's limits, and its bound.

    One part in `offcut_part` of what is then left of the budget is for a larger off-cut.
    """
    plain = replace(job, rule=NO_RULE)
    if job.longest is not None or (job.stages or 0) > STRIPS:
        return _laid_by_rule(job, plain, budget)
    return _Staged(job, plain, budget, offcut_part).run()


def _laid_by_rule(job: SheetJob, plain: SheetJob, budget: WorkBudget) -> StagedPlan:
    """A plan without limits may keep them as it is; else the sheets are laid anew within them.

    Within the operator's rules sheets are broken down into sections, and these cut in strips.
    """
    whole = replace(plain, longest=None, wider=0)  # a layout that is changed has no room for another blade
    free = SheetSearch(whole, budget.part(budget.left // 2)).run()
    clean = None
    held = job.longest is None or job.wider == 0 or all_in_sections(job)
    if job.rule.gap and held and free.cuts is not None and (job.stages is None or job.stages >= STRIPS):
        search = StripSearch(job, budget)
        search.run(free.bound, budget.part(budget.left // 2))
        clean = search.cuts()
        if clean is not None and cost_of(job, clean) <= free.bound:
            return StagedPlan(clean, free.bound, clean)
    cuts: Sequence[SheetCut] | None = free.cuts
    if cuts is not None and not all(_keeps(plain, cut) for cut in cuts):
        cuts = ConstructiveHeuristic(plain, budget).run(free.bound)
    if clean is not None and (cuts is None or cost_of(job, clean) <= cost_of(job, cuts)):
        cuts = clean
    return StagedPlan(cuts, free.bound, clean)


def _keeps(job: SheetJob, cut: SheetCut) -> bool:
    long = job.longest is not None and max(cut.layout.width, cut.layout.height) > job.longest
    return not long and (job.stages is None or stages(cut.layout) <= job.stages)


class _Staged:
    """Strips within the rules and without, and what proves that no plan is cheaper."""

    def __init__(self, job: SheetJob, plain: SheetJob, budget: WorkBudget, offcut_part: int) -> None:
        self.plain, self.budget, self.offcut_part = plain, budget, offcut_part
        self.clean = StripSearch(job, budget) if job.rule.gap else None
        self.strips = StripSearch(plain, budget) if job.stages is not None else None
        self.free = SheetSearch(plain, budget)

    def run(self) -> StagedPlan:
        """The rules first; what they cost more than the bound is then looked for without them."""
        searches = [search for search in (self.clean, self.strips) if search is not None]
        if not self.free.has_room():
            return StagedPlan(None, self.free.bound.cost)
        for search in searches[:1]:
            # most plans of a bench are the cheapest from the start: that is proved before others are looked for
            search.run(self._cost(), self.budget.part(self.budget.left // 8))
            self._prove_quickly()
            self._look(search, 8)
        self._prove_quickly()
        if self.strips is not None and not self._done():
            self._prove(self.strips, {column for search in searches for column in search.known})
        for search in searches:
            self._look(search, 4)
        if self.strips is None:
            return self._with_free()
        for rest in range(len(searches), 0, -1):
            self._look(searches[-rest], rest)
        return self._plan(self.strips.cuts() or self._laid())

    def _prove_quickly(self) -> None:
        if not self._done():
            self.free.prove_quickly(self._cost())

    def _prove(self, strips: StripSearch, known: Collection[Column]) -> None:
        """Raise the bound, and look at all sheets that a plan of that cost could use."""
        bound = self.free.bound
        table = raise_strip_bound(
            self.plain, bound, sorted(known), self._cost(), self.budget.part(self.budget.left // 2)
        )
        # the sheets that are enumerated have three stages: with two, only the bound holds
        if table is None or self._done() or self.plain.stages != STRIPS:
            return
        for search in (self.clean, self.strips):
            if search is not None and bound.last is not None:
                search.learn_prices(bound.last.duals)
        found = settle(self.plain, table, bound, self._cost(), self.budget.part(self.budget.left // 2))
        if found is None:
            return
        plan, sheets = found
        strips.learn_sheets(sheets)
        strips.take(plan)
        if self.clean is not None:
            self.clean.learn_sheets(sheets)
            self.clean.run(bound.cost, self.budget.part(self.budget.left // 2))

    def _look(self, search: StripSearch, share: int) -> None:
        if not self._done():
            if search is self.strips and self.clean is not None:
                search.learn(self.clean)
            search.run(self.free.bound.cost, self.budget.part(self.budget.left // share))

    def _cost(self) -> int:
        """What the cheapest plan of strips costs; without one, more than any plan."""
        costs = [s.cost for s in (self.clean, self.strips) if s is not None and s.cost is not None]
        return min([*costs, sum(self.plain.prices) * sum(self.plain.demands) + 1])

    def _done(self) -> bool:
        return self.budget.spent or self._cost() <= self.free.bound.cost

    def _laid(self) -> Sequence[SheetCut] | None:
        """Pieces laid one by one, where strips did not find room for all."""
        known = self.clean is not None and self.clean.cost is not None
        return None if known else ConstructiveHeuristic(self.plain, self.budget).run(self.free.bound.cost)

    def _with_free(self) -> StagedPlan:
        """Any number of stages; of several kinds of sheets the plan is sometimes cheaper that strips show."""
        if self._done() and self.clean and self.clean.cost is not None:
            return self._plan(None)
        staged = StripSearch(replace(self.plain, stages=STRIPS), self.budget)
        if len(self.plain.sheets) > 1:
            staged.run(self.free.bound.cost, self.budget.part(self.budget.left // STRIPS_FIRST))
        cuts, strips = self.free.run().cuts, staged.cuts()
        if strips is not None and (cuts is None or cost_of(self.plain, strips) < cost_of(self.plain, cuts)):
            cuts = strips
        return self._plan(cuts)

    def _plan(self, cuts: Sequence[SheetCut] | None) -> StagedPlan:
        """The plan within the rules, unless the other is cheaper."""
        clean = self.clean.cuts() if self.clean is not None else None
        bound = self.free.bound.cost
        if clean is not None and (cuts is None or cost_of(self.plain, clean) <= cost_of(self.plain, cuts)):
            best = self._with_offcut(clean, self.clean)
            return StagedPlan(best, bound, best)
        return StagedPlan(self._with_offcut(cuts, self.strips), bound, clean)

    def _with_offcut(
        self, cuts: Sequence[SheetCut] | None, search: StripSearch | None
    ) -> Sequence[SheetCut] | None:
        """The plan that leaves most in one part, by what is left of the budget."""
        if cuts is None or search is None or not any(self.plain.keep):
            return cuts
        return larger_offcut(search.job, cuts, search, self.budget.part(self.budget.left // self.offcut_part))
