"""What sheets cut in at most three stages must cost: column generation over strips, coarse first, then finer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from operator import mul

from generator.calculators.cutting.core.bounds import Duals, cost_in_parts, least_cost
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import scale_for
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.master import Master, Prices
from generator.calculators.cutting.sheets.bounds import SheetBound, best_grain
from generator.calculators.cutting.sheets.job import SheetJob
from generator.calculators.cutting.sheets.strip_table import StripTable
from generator.calculators.cutting.sheets.table import sizes_on

#: Points on an axis of the table, first few, then more while the budget lasts; and how near to the end is enough.
POINTS = ((150, 0.01), (400, 0.001), (1000, 0.0))

#: Numbers that a table keeps at most, and how often the budget must be enough to fill it.
MOST_CELLS, FILLS = 12_000_000, 4

#: Sheets that one round of pricing adds at most for one stock and one way to lay it.
MOST_AT_ONCE = 12

#: How much of the best prices is in those that a table is filled for.
SMOOTH = 0.6

#: Units of work for each piece when a table is built. Measured, no source.
BUILT = 500

#: Units of work for a sheet that is added. Measured, no source.
LAID = 300


def strip_table(job: SheetJob, most: int, budget: WorkBudget) -> StripTable:
    """A table with at most about `most` points on each axis."""
    grains = []
    for axis in (0, 1):
        sizes, longest = sizes_on(job, axis)
        grains.append(best_grain(sizes, longest, most, budget))
    return StripTable(job, (grains[0], grains[1]))


def raise_strip_bound(
    job: SheetJob, bound: SheetBound, known: Iterable[Column], dearest: int, budget: WorkBudget
) -> StripTable | None:
    """Raise the bound up to what a plan costs; the last table, filled for `bound.last`."""
    areas, known = job.areas, list(known)
    last = None
    for points, slack in POINTS:
        part = budget.part(budget.left // 2) if points == POINTS[0][0] else budget
        part.spend(BUILT * len(job.pieces))
        if part.spent:
            break
        table = strip_table(job, points, part)
        if table.cells > MOST_CELLS or part.left < FILLS * table.work:
            break
        last = table
        # sheets of a coarser table are not real: they would hold the finer program down
        master = Master(areas, areas.demands, areas.limits, 4 * max(areas.prices) / areas.longest)
        master.add(known)
        _price(job, bound, table, master, dearest, slack, part)
        if budget.spent or bound.cost >= dearest or table.exact:
            break
    return last


def _price(
    job: SheetJob,
    bound: SheetBound,
    table: StripTable,
    master: Master,
    dearest: int,
    slack: float,
    budget: WorkBudget,
) -> None:
    """Raise the bound by one table, until the prices of the program prove all but a share of it.

    Prices swing from one round to the next: the table is filled for those between the last and the best so far
    (Pessoa, Sadykov, Uchoa & Vanderbeck 2018), and for the last themselves when that finds no sheet that pays.
    """
    areas, can_be_cut = job.areas, True
    scale = scale_for(areas, dearest)
    best = (
        [0 if piece in table.lost else dual for piece, dual in enumerate(bound.last.duals)]
        if bound.last
        else None
    )
    most_proved, smooth = 0.0, True
    while not budget.spent:
        prices = master.solve(budget)
        if areas.one_price and can_be_cut and prices.missing == 0 and prices.cost <= bound.cost:
            return  # these sheets cost no more in parts: no prices of this table prove more
        last = [0 if piece in table.lost else int(value * scale) for piece, value in enumerate(prices.pieces)]
        duals = last
        if smooth and best is not None:
            share = 1.0 if prices.missing else SMOOTH
            duals = [int(share * old + (1 - share) * new) for old, new in zip(best, last, strict=True)]
        table.fill(duals, budget)
        proof = measured(job, duals, table)
        cost = least_cost(areas, proof, dearest, budget)
        if cost > bound.cost:
            bound.cost, bound.proof = cost, proof
        proved = float(cost_in_parts(areas, proof) or 0)
        if proved > most_proved:
            best, most_proved, bound.last = duals, proved, proof
        near = not prices.missing and prices.cost - most_proved < slack * prices.cost
        if bound.cost >= dearest or near:
            return
        # sheets that can be cut lead to prices that prove more than those of all sheets of the table
        if master.add(_paying(job, table, prices, last, scale, True, budget)):
            smooth = True
        elif duals is not last:
            smooth = False
        else:
            can_be_cut = False
            if not master.add(_paying(job, table, prices, last, scale, False, budget)):
                return


def measured(job: SheetJob, duals: Sequence[int], table: StripTable) -> Duals:
    """What fits on each sheet by a table that is filled for these duals."""
    most = tuple(table.most(stock) for stock in range(len(job.sheets)))
    need = sum(worth * demand for worth, demand in zip(duals, job.demands, strict=True))
    return Duals(tuple(duals), most, need)


def _paying(
    job: SheetJob,
    table: StripTable,
    prices: Prices,
    duals: Sequence[int],
    scale: int,
    real: bool,
    budget: WorkBudget,
) -> Iterator[Column]:
    """Sheets worth more than they cost by the last prices."""
    for stock, price in enumerate(job.prices):
        paid = price * scale - int(prices.stock[stock] * scale)
        least = paid + max(2, paid >> 26)
        if job.limits[stock] == 0:
            continue
        for way in table.ways:
            for counts in way.patterns(stock, MOST_AT_ONCE, real):
                budget.spend(LAID)
                if budget.spent:
                    return
                if sum(map(mul, duals, counts)) > least:
                    yield stock, counts
