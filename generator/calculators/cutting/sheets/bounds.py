"""What sheets must cost at least, for guillotine cuts with any number of stages.

The proof has the form of `core.bounds`: duals of pieces, the most worth on one sheet (here from the table over
guillotine layouts, an upper bound), and the cheapest set of sheets that holds all duals. Whole numbers only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.calculators.cutting.core.bounds import Duals, least_cost
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import scale_for
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.master import Master
from generator.calculators.cutting.sheets.job import SheetJob, counts_of
from generator.calculators.cutting.sheets.table import Axis, SheetTable, TableLayouts, normal_points, sizes_on

#: Layouts that one round of pricing adds at most for one kind of sheet.
MOST_AT_ONCE = 12

#: How many roundings are tried, times the sizes that are rounded.
MOST_TRIES = 40_000

#: Units of work for a rectangle that is laid out. Measured, no source.
LAID = 80

#: Points on an axis of the table: first few, then more while the budget lasts.
POINTS = (130, 300, 600)


@dataclass
class SheetBound:
    """The proved bound and the duals that prove it; `last` are those of the last round."""

    cost: int
    proof: Duals
    last: Duals | None = None


def measured(job: SheetJob, duals: Sequence[int], table: SheetTable) -> Duals:
    """What fits on each sheet by a table that is filled for these duals."""
    most = tuple(table.most(width, height) for width, height in job.sheets)
    need = sum(worth * demand for worth, demand in zip(duals, job.demands, strict=True))
    return Duals(tuple(duals), most, need)


def best_grain(sizes: Sequence[tuple[int, int]], longest: int, most: int, budget: WorkBudget) -> int:
    """The rounding, with at most `most` points on the axis, that loses least of the pieces' sizes."""
    if len(normal_points(sizes, longest)) <= most:
        return 1
    best, kept_most = longest, 0.0
    first, last = max(2, longest // (4 * most)), 4 * longest // most + 2
    apart = max(1, (last - first) * len(sizes) // MOST_TRIES)
    for grain in range(first, last, apart):
        if budget.spent:
            break
        points = normal_points([(size // grain, count) for size, count in sizes], longest // grain)
        kept = sum((size // grain) * size * count for size, count in sizes) / (longest // grain)
        if len(points) <= most and kept > kept_most:
            best, kept_most = grain, kept
    return best


def coarse_table(job: SheetJob, most: int, budget: WorkBudget) -> SheetTable:
    """A table whose values are never too small, with at most `most` points on each axis."""
    axes = []
    for axis in (0, 1):
        sizes, longest = sizes_on(job, axis)
        axes.append(Axis.coarse(sizes, longest, best_grain(sizes, longest, most, budget)))
    return SheetTable(job, axes[0], axes[1])


def raise_bound(
    job: SheetJob, bound: SheetBound, table: SheetTable, master: Master, dearest: int, budget: WorkBudget
) -> None:
    """Column generation over guillotine layouts in which pieces may repeat; keeps the best bound on the way."""
    areas = job.areas
    scale = scale_for(areas, dearest)
    while not budget.spent:
        prices = master.solve(budget)
        # any duals prove a bound, and a sliver hardly adds to it
        duals = [
            0 if sliver else int(value * scale)
            for value, sliver in zip(prices.pieces, job.slivers, strict=True)
        ]
        table.fill(duals, budget)
        proof = measured(job, duals, table)
        cost = least_cost(areas, proof, dearest, budget)
        if cost > bound.cost:
            bound.cost, bound.proof = cost, proof
        if bound.cost >= dearest:
            return
        new: list[Column] = []
        for stock in range(len(job.sheets)):
            paid = job.prices[stock] * scale - int(prices.stock[stock] * scale)
            if budget.spent:
                break
            if job.limits[stock] != 0 and proof.most[stock] > paid + max(2, paid >> 26):
                new += [(stock, counts) for counts in _paying(job, table, duals, stock, paid, budget)]
        bound.last = proof
        if not master.add(new):
            return


def _paying(
    job: SheetJob, table: SheetTable, duals: Sequence[int], stock: int, paid: int, budget: WorkBudget
) -> list[tuple[int, ...]]:
    """Layouts on one sheet worth more than is paid: the best, and for pieces that it lacks, the best with them."""
    width, height = job.sheets[stock]
    pieces = len(job.pieces)
    layouts = TableLayouts(table, duals)
    held = counts_of(layouts.layout(width, height), pieces)
    found = [held]
    ways = [(piece, *way) for piece in range(pieces) for way in job.ways(piece)]
    ranked = sorted(
        (
            (-(duals[way[0]] + table.around_piece(width, height, way)[0]), place)
            for place, way in enumerate(ways)
            if way[1] <= width and way[2] <= height
        ),
    )
    for merit, place in ranked:
        if -merit <= paid or len(found) > MOST_AT_ONCE or budget.left < LAID * layouts.laid:
            break
        if held[ways[place][0]]:
            continue
        _, layout = table.around_piece(width, height, ways[place])
        counts = counts_of(layouts.filled(layout), pieces)
        found.append(counts)
        held = tuple(now + more for now, more in zip(held, counts, strict=True))
    budget.spend(LAID * layouts.laid + sum(map(sum, found)) + 6 * pieces * len(found) + 20 * len(ways))
    return found
