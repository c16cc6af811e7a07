"""Plans within what a saw can do: so many changes of direction at most, no part too long for the fence.

A plan without these limits is made first: it may keep them as it is, and its bound holds for every plan. Else the
sheets are laid anew within the limits.
"""

from __future__ import annotations

from dataclasses import replace

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.constructive import ConstructiveHeuristic
from generator.calculators.cutting.sheets.job import SheetCut, SheetJob, stages
from generator.calculators.cutting.sheets.search import SheetResult, SheetSearch


def search(job: SheetJob, budget: WorkBudget) -> SheetResult:
    """The cheapest plan that is found within the job's limits; its bound is that of all plans."""
    if job.stages is None and job.longest is None:
        return SheetSearch(job, budget).run()
    free = SheetSearch(job, budget.part(budget.left // 2)).run()
    if free.cuts is None or all(_keeps(job, cut) for cut in free.cuts):
        return free
    return replace(free, cuts=ConstructiveHeuristic(job, budget).run(free.bound))


def _keeps(job: SheetJob, cut: SheetCut) -> bool:
    long = job.longest is not None and max(cut.layout.width, cut.layout.height) > job.longest
    return not long and (job.stages is None or stages(cut.layout) <= job.stages)
