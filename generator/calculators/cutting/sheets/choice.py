"""The cheapest choice among sheets that a search has filled: a set covering program over them.

Good sheets of many plans go together better than those of any one (Monaci & Toth, INFORMS Journal on Computing 18,
2006).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from operator import mul

from generator.calculators.cutting.core.bounds import Duals, least_cost
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.columns import scale_for
from generator.calculators.cutting.core.covering import Column, choose
from generator.calculators.cutting.core.job import BarJob, Cut
from generator.calculators.cutting.core.master import Master
from generator.calculators.cutting.core.whole_program import Outcome

#: How much more a step of the choice costs here than the solver is charged for: sheets of many pieces. Measured.
DEAR = 12

#: Units of work for each count of a piece on a sheet before the solver first asks whether to stop. Measured.
BEFORE_THE_FIRST_STEP = 60

#: What the linear program may be off by, in parts of what is paid.
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
    spare = dearest - prices.cost + TOLERANCE * max(1, dearest)
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
    if not useful or dearest < bound:
        return Choice(None, worth)
    _, cuts = combined(areas, useful, dearest, budget, 4, bound, quick=True)
    return Choice(cuts, worth)


def settled_by(
    areas: BarJob, sheets: Collection[Column], target: int, budget: WorkBudget
) -> tuple[Outcome, list[Cut] | None]:
    """A plan of at most `target`, where these are all sheets that such a plan may use; or that there is none."""
    if not sheets:
        return Outcome.NONE_EXISTS, None
    useful, worth = useful_sheets(areas, sheets, target, budget)
    if not useful:
        dear = _too_dear(areas, sheets, target, worth, budget)
        return (Outcome.NONE_EXISTS if dear else Outcome.NOT_FOUND), None
    return combined(areas, useful, target, budget, 1)


def _too_dear(
    areas: BarJob, sheets: Collection[Column], target: int, worth: Sequence[float], budget: WorkBudget
) -> bool:
    """Whether the worth of the pieces proves, in whole numbers, that any plan of these sheets costs more."""
    scale = scale_for(areas, target)
    duals = tuple(int(value * scale) for value in worth)
    most = [0] * len(areas.prices)
    for stock, counts in sheets:
        most[stock] = max(most[stock], sum(map(mul, duals, counts)))
    budget.spend(len(sheets))
    proof = Duals(duals, tuple(most), sum(map(mul, duals, areas.demands)))
    return least_cost(areas, proof, target, budget) > target


def combined(
    areas: BarJob,
    sheets: Sequence[Column],
    dearest: int,
    budget: WorkBudget,
    share: int,
    enough: int | None = None,
    quick: bool = False,
) -> tuple[Outcome, list[Cut] | None]:
    """The cheapest plan of at most `dearest` from sheets, by one part in `share` of the budget."""
    budget.spend(BEFORE_THE_FIRST_STEP * sum(sum(map(bool, counts)) for _, counts in sheets))
    if budget.spent:
        return Outcome.NOT_FOUND, None
    part = budget.part(budget.left // (share * DEAR))
    before = part.left
    answer = choose(areas, sheets, dearest, part, enough, quick)
    budget.spend((DEAR - 1) * (before - part.left))
    return answer
