"""Is there a plan of at most a wished cost? All layouts that it could use are enumerated and combined."""

from __future__ import annotations

from dataclasses import dataclass

from generator.calculators.cutting.core.bounds import Duals
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import Cut
from generator.calculators.cutting.core.patterns import needs_for_cost
from generator.calculators.cutting.core.whole_program import Outcome
from generator.calculators.cutting.sheets.blocks import BlockSearch, around_work
from generator.calculators.cutting.sheets.choice import settled_by
from generator.calculators.cutting.sheets.job import Layout, Sheet, SheetJob, tidied, without
from generator.calculators.cutting.sheets.table import SheetTable

#: Layouts that are combined at once.
MOST_COLUMNS = 20_000


@dataclass(frozen=True)
class Answer:
    """A plan of at most the target, or None. `settled`: none is cheaper, or without a plan, none costs so little."""

    sheets: list[Sheet] | None = None
    settled: bool = False


def cheaper_plan(
    job: SheetJob, table: SheetTable, proof: Duals, target: int, most: int, budget: WorkBudget
) -> Answer:
    """Look for a plan of at most `target`, with duals that the table bounds; at most `most` blocks are looked at."""
    areas = job.areas
    if budget.left < table.work + around_work(job, table):
        return Answer()
    table.fill(proof.duals, budget)
    search = BlockSearch(job, table, proof.duals, needs_for_cost(areas, proof, target), budget)
    if not search.run(most):
        return Answer()
    columns = search.columns()
    if len(columns) > MOST_COLUMNS:
        return Answer()
    outcome, cuts = settled_by(areas, columns, target, budget)
    if outcome is Outcome.NONE_EXISTS:
        return Answer(settled=True)
    if cuts is None:
        return Answer()
    sheets = []
    for cut in cuts:
        layout = _holding(job, search, columns, cut)
        sheets += [(cut.stock, layout)] * cut.times
    return Answer(sheets, outcome is Outcome.BEST)


def _holding(job: SheetJob, search: BlockSearch, columns: dict[Column, tuple[int, int]], cut: Cut) -> Layout:
    """A layout with the pieces of a cut; what it has too many of becomes waste."""
    spare = {
        counts: [has - wants for has, wants in zip(counts, cut.pattern, strict=True)]
        for stock, counts in columns
        if stock == cut.stock
    }
    counts = min((each for each in spare if min(spare[each]) >= 0), key=lambda each: sum(spare[each]))
    return tidied(without(search.on_sheet(cut.stock, *columns[cut.stock, counts]), spare[counts]))
