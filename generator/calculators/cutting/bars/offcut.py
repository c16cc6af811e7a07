"""At the least cost, the longest off-cut that is worth keeping: the off-cut is one more piece, as long as can be.

A plan of that cost whose longest off-cut is R exists when the pieces and one more piece of length R cost no more; the
longer the piece the harder, so the longest is found by halving.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.calculators.cutting.bars.search import BarSearch
from generator.calculators.cutting.core.bounds import has_price_table, price_table
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import BarJob, Cut, Pattern, cost_of
from generator.calculators.cutting.core.knapsack import Whole, binary_split


@dataclass(frozen=True)
class OffcutResult:
    """`rest` is the capacity that the emptiest bar has left; `longest`: no plan of that cost leaves more."""

    cuts: tuple[Cut, ...]
    rest: int
    longest: bool


def emptiest(job: BarJob, cuts: Sequence[Cut]) -> int:
    """The most capacity that a bar of the plan has left."""
    return max((job.capacities[cut.stock] - job.used(cut.pattern) for cut in cuts), default=0)


def longest_offcut(
    job: BarJob, cuts: tuple[Cut, ...], columns: Sequence[Column], budget: WorkBudget
) -> OffcutResult:
    """Change a cheapest plan for one, no dearer, with the longest off-cut that the budget finds."""
    cost = cost_of(job, cuts)
    rest = emptiest(job, cuts)
    lengths = _possible_rests(job, cost, budget)
    if lengths is None:
        return OffcutResult(cuts, rest, False)
    low, high = int(np.searchsorted(lengths, rest, side="right")), len(lengths)
    longest = True
    while low < high:
        if budget.spent:
            return OffcutResult(cuts, rest, False)
        middle = (low + high) // 2
        found, settled = _with_offcut(job, cost, int(lengths[middle]), columns, budget)
        if found is None:
            high = middle
            longest &= settled
        else:
            cuts, rest = found, emptiest(job, found)
            low = int(np.searchsorted(lengths, rest, side="right"))
    return OffcutResult(cuts, rest, longest)


def _possible_rests(job: BarJob, cost: int, budget: WorkBudget) -> Whole | None:
    """Every capacity that a bar with at least one piece can have left, as far as the material for `cost` goes.

    None when the budget is spent.
    """
    room = job.longest
    reached = np.zeros(room + 1, dtype=np.bool_)
    reached[0] = True
    for length, demand in zip(job.lengths, job.demands, strict=True):
        for part in binary_split(min(demand, room // length)):
            size = part * length
            if size <= room:
                reached[size:] |= reached[: room + 1 - size].copy()
    sums = np.flatnonzero(reached)[1:]
    capacities = {c for c, limit in zip(job.capacities, job.limits, strict=True) if limit != 0}
    budget.spend(len(capacities) * (20 + len(sums) // 500))
    if budget.spent:
        return None
    possible = np.zeros(room + 1, dtype=np.bool_)
    for capacity in capacities:
        possible[capacity - sums[sums <= capacity]] = True
    rests = np.flatnonzero(possible)
    if has_price_table(job, cost):
        spare = int(price_table(job.capacities, job.prices, job.limits, cost).max()) - job.total
        rests = rests[rests <= spare]
    return rests[rests > 0]


def with_piece(job: BarJob, length: int) -> tuple[BarJob, int]:
    """The job with one more piece of `length`, and the place of that length."""
    if length in job.lengths:
        place = job.lengths.index(length)
        demands = tuple(demand + (index == place) for index, demand in enumerate(job.demands))
        return replace(job, demands=demands), place
    place = sum(other > length for other in job.lengths)
    lengths = (*job.lengths[:place], length, *job.lengths[place:])
    demands = (*job.demands[:place], 1, *job.demands[place:])
    return replace(job, lengths=lengths, demands=demands), place


def _with_offcut(
    job: BarJob, cost: int, length: int, columns: Sequence[Column], budget: WorkBudget
) -> tuple[tuple[Cut, ...] | None, bool]:
    """A plan of at most `cost` with such an off-cut; None settled when there is none."""
    wider, place = with_piece(job, length)
    new = len(wider.lengths) > len(job.lengths)
    seeds = [
        (stock, (*pattern[:place], 0, *pattern[place:]) if new else pattern) for stock, pattern in columns
    ]
    part = budget.part(max(1, budget.left // 3))
    search = BarSearch(wider, part, enough=cost, dearest=cost)
    result = search.run(seeds)
    if result.cuts is None or cost_of(wider, result.cuts) > cost:
        return None, result.bound > cost
    cuts = _without_piece(result.cuts, place, new)
    # A bar on hand that costs nothing may carry the off-cut alone; then nothing is cut from it.
    return (cuts, True) if cuts is not None else (None, False)


def _without_piece(cuts: tuple[Cut, ...], place: int, new: bool) -> tuple[Cut, ...] | None:
    result: list[Cut] = []
    taken = False
    for cut in cuts:
        pattern: Pattern = cut.pattern
        if not taken and pattern[place]:
            taken = True
            changed = (*pattern[:place], pattern[place] - 1, *pattern[place + 1 :])
            if not any(changed):
                return None
            result.append(Cut(cut.stock, changed, 1))
            if cut.times > 1:
                result.append(Cut(cut.stock, pattern, cut.times - 1))
        else:
            result.append(cut)
    if new:
        result = [Cut(c.stock, (*c.pattern[:place], *c.pattern[place + 1 :]), c.times) for c in result]
    return tuple(result)
