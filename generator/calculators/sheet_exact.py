"""Is there a plan of at most a wished cost? All layouts that it could use are counted out and combined."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calculators.bar_bounds import Worths, cost_below
from generator.calculators.bar_choice import Column, choose
from generator.calculators.bar_job import Cut
from generator.calculators.bar_patterns import needs_for_cost
from generator.calculators.effort import Effort
from generator.calculators.sheet_blocks import BlockSearch
from generator.calculators.sheet_job import Layout, SheetJob
from generator.calculators.sheet_table import SheetTable
from generator.calculators.whole_program import Outcome


@dataclass(frozen=True)
class Answer:
    """A plan with its layouts; or `none`: no plan costs `target` or less; or neither, when the effort was
    spent.
    """

    target: int
    cuts: list[Cut] | None
    layouts: dict[Column, Layout]
    best: bool
    none: bool


def cheaper_plan(
    job: SheetJob, table: SheetTable, proof: Worths, cost: int, most: int, effort: Effort
) -> Answer:
    """Look for a plan below `cost`, with worths that the table bounds; at most `most` blocks are looked at."""
    areas = job.areas
    target = cost_below(areas, proof, cost)
    if target < 0:
        return Answer(cost - 1, None, {}, False, True)
    table.fill(proof.worths, effort)
    search = BlockSearch(job, table, proof.worths, needs_for_cost(areas, proof, target), effort)
    if not search.run(most):
        return Answer(target, None, {}, False, False)
    layouts = search.columns()
    if not layouts:
        return Answer(target, None, {}, False, True)
    outcome, cuts = choose(areas, list(layouts), target, effort)
    return Answer(target, cuts, layouts, outcome is Outcome.BEST, outcome is Outcome.NONE_EXISTS)
