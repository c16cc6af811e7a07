"""The cheapest choice among sheets that a search has filled: a set covering program over them.

Good sheets of many plans go together better than those of any one (Monaci & Toth, INFORMS Journal on Computing 18,
2006).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from operator import mul

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column, choose
from generator.calculators.cutting.core.job import BarJob, Cut
from generator.calculators.cutting.core.master import Master

#: How much more a step of the choice costs here than the solver is charged for: sheets of many pieces. Measured.
DEAR = 12

#: Units of work for each count of a piece on a sheet before the solver first asks whether to stop. Measured.
BEFORE_THE_FIRST_STEP = 60

#: What the linear program may be off by.
TOLERANCE = 1e-6


@dataclass(frozen=True)
class Choice:
    """`cuts` is a plan that costs less than `dearest`, or None; `worth` of each piece by the linear program."""

    cuts: list[Cut] | None
    worth: Sequence[float]


def useful_sheets(
    areas: BarJob, known: Collection[Column], dearest: int, budget: WorkBudget
) -> tuple[list[Column], Sequence[float]]:
    """The sheets that a plan of at most `dearest` may use, and the worth of each piece by the linear program."""
    master = Master(areas, areas.demands, areas.limits, 4 * max(areas.prices) / areas.longest)
    master.add(known)
    prices = master.solve(budget)
    # a plan of that price has no sheet that is dearer, by these prices, than all that may be lost
    spare = dearest - prices.cost + TOLERANCE
    useful = [
        (stock, counts)
        for stock, counts in known
        if areas.prices[stock] - prices.stock[stock] - sum(map(mul, prices.pieces, counts)) <= spare
    ]
    return (useful if spare >= 0 else []), prices.pieces


def chosen_sheets(
    areas: BarJob, known: Collection[Column], dearest: int, bound: int, budget: WorkBudget
) -> Choice:
    """The cheapest plan of at most `dearest` from these sheets, as far as the budget goes."""
    useful, worth = useful_sheets(areas, known, dearest, budget)
    budget.spend(BEFORE_THE_FIRST_STEP * sum(sum(map(bool, counts)) for _, counts in useful))
    if not useful or dearest < bound or budget.spent:
        return Choice(None, worth)
    part = budget.part(budget.left // (4 * DEAR))
    before = part.left
    _, cuts = choose(areas, useful, dearest, part, bound, quick=True)
    budget.spend((DEAR - 1) * (before - part.left))
    return Choice(cuts, worth)
