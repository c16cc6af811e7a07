"""Choose among known patterns in whole numbers: a set covering program (Gilmore & Gomory 1961)."""

from __future__ import annotations

from collections.abc import Sequence

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob, Cut, Pattern, cost_of, is_plan, trimmed_to_demand
from generator.calculators.cutting.core.whole_program import Outcome, WholeProgram

Column = tuple[int, Pattern]


def choose(
    job: BarJob,
    columns: Sequence[Column],
    dearest: int,
    budget: WorkBudget,
    enough: int | None = None,
    quick: bool = False,
) -> tuple[Outcome, list[Cut] | None]:
    """The cheapest plan of at most `dearest` from these patterns only. A plan was checked in whole numbers."""
    infinity = float("inf")
    pieces = len(job.lengths)
    limits = {stock: limit for stock, limit in enumerate(job.limits) if limit is not None}
    row_of = {stock: pieces + row for row, stock in enumerate(limits)}
    program = WholeProgram(
        [float(demand) for demand in job.demands] + [-infinity] * len(limits),
        [infinity] * pieces + [float(limit) for limit in limits.values()],
    )
    for stock, pattern in columns:
        rows = [row for row, count in enumerate(pattern) if count]
        most = max(-(-job.demands[row] // pattern[row]) for row in rows)
        values = [float(pattern[row]) for row in rows]
        if stock in limits:
            most = min(most, limits[stock])
            rows.append(row_of[stock])
            values.append(1.0)
        program.column(float(job.prices[stock]), float(most), rows, values)
    answer = program.solve(budget, enough=None if enough is None else float(enough), quick=quick)
    if not answer.values:
        return answer.outcome, None
    cuts = [
        Cut(stock, pattern, times)
        for (stock, pattern), times in zip(columns, answer.values, strict=True)
        if times
    ]
    if not is_plan(job, cuts, exact=False):
        return Outcome.NOT_FOUND, None
    if cost_of(job, cuts) > dearest:
        return (Outcome.NONE_EXISTS if answer.outcome is Outcome.BEST else Outcome.NOT_FOUND), None
    return answer.outcome, trimmed_to_demand(job, cuts)
