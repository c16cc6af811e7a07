"""First plans for bars by simple rules: best fit, and filling each bar as full as its longest piece allows."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.job import BarJob, Cut, Pattern, cost_of, trimmed_to_demand
from generator.calculators.cutting.core.knapsack import Knapsack


def best_fit(
    job: BarJob, demands: Sequence[int], limits: Sequence[int | None], budget: WorkBudget
) -> list[Cut] | None:
    """Longest piece first, each into the open bar that it fills best; a new bar is the cheapest by length.

    Every bar is at last changed for the cheapest stock that holds its pieces.
    """
    left = list(limits)
    bars: list[tuple[int, list[int]]] = []
    rests: list[tuple[int, int]] = []
    order = _by_price_of_length(job)
    for index, length in enumerate(job.lengths):
        for _ in range(demands[index]):
            at = bisect_left(rests, (length, 0))
            if at < len(rests):
                rest, place = rests.pop(at)
            else:
                usable = (s for s in order if job.capacities[s] >= length and left[s] != 0)
                stock = next(usable, -1)
                if stock < 0:
                    return None
                limit = left[stock]
                left[stock] = None if limit is None else limit - 1
                rest, place = job.capacities[stock], len(bars)
                bars.append((stock, []))
            bars[place][1].append(index)
            insort(rests, (rest - length, place))
    alike = Counter((stock, tuple(held)) for stock, held in bars)
    budget.spend(2 * sum(demands) + len(alike) * len(job.lengths) // 20)
    filled = [(stock, _pattern(held, len(job.lengths)), times) for (stock, held), times in alike.items()]
    return _on_cheapest_stock(job, filled, left)


def _pattern(held: Sequence[int], pieces: int) -> Pattern:
    counts = [0] * pieces
    for index in held:
        counts[index] += 1
    return tuple(counts)


def _by_price_of_length(job: BarJob) -> list[int]:
    stocks = [stock for stock, capacity in enumerate(job.capacities) if capacity > 0]
    return sorted(stocks, key=lambda s: (Fraction(job.prices[s], job.capacities[s]), -job.capacities[s]))


def _on_cheapest_stock(
    job: BarJob, bars: list[tuple[int, Pattern, int]], left: list[int | None]
) -> list[Cut]:
    """Move every bar's pieces to a cheaper stock that holds them, the fullest bars first."""
    cuts: Counter[tuple[int, Pattern]] = Counter()
    order = sorted(range(len(job.capacities)), key=lambda s: (job.prices[s], job.capacities[s]))
    filled = [(job.used(pattern), stock, pattern, times) for stock, pattern, times in bars]
    for used, stock, pattern, times in sorted(filled, key=lambda bar: -bar[0]):
        for _ in range(times):
            best = next(s for s in order if s == stock or (job.capacities[s] >= used and left[s] != 0))
            if job.prices[best] == job.prices[stock]:
                best = stock
            for changed, step in ((stock, 1), (best, -1)):
                limit = left[changed]
                left[changed] = None if limit is None else limit + step
            cuts[best, pattern] += 1
    return [Cut(stock, pattern, times) for (stock, pattern), times in cuts.items()]


def fill_up(
    job: BarJob,
    demands: Sequence[int],
    limits: Sequence[int | None],
    worth: Sequence[int],
    budget: WorkBudget,
) -> list[Cut] | None:
    """Take the longest piece left and fill its bar to the highest `worth`, on the stock that pays it best.

    With `worth` = length this is the fill rule; with the prices of a linear program it is their rounding.
    """
    left, free = list(demands), list(limits)
    cuts: list[Cut] = []
    while any(left):
        if budget.spent:
            return None
        budget.spend(8 * len(job.lengths) + 2 * len(job.capacities))
        first = next(index for index, count in enumerate(left) if count)
        rest = [count - (index == first) for index, count in enumerate(left)]
        room = job.longest - job.lengths[first]
        knapsack = Knapsack(job.lengths, rest, room)
        table = knapsack.table(worth, budget)
        best: tuple[Fraction, int] | None = None
        for stock, capacity in enumerate(job.capacities):
            if capacity < job.lengths[first] or free[stock] == 0:
                continue
            value = int(table[capacity - job.lengths[first]]) + worth[first]
            merit = Fraction(job.prices[stock], max(1, value))
            if best is None or merit < best[0]:
                best = (merit, stock)
        if best is None:
            return None
        stock = best[1]
        pattern = list(knapsack.pattern(job.capacities[stock] - job.lengths[first]))
        pattern[first] += 1
        times = min(left[i] // count for i, count in enumerate(pattern) if count)
        limit = free[stock]
        if limit is not None:
            times = min(times, limit)
            free[stock] = limit - times
        left = [count - times * taken for count, taken in zip(left, pattern, strict=True)]
        cuts.append(Cut(stock, tuple(pattern), times))
    return _on_cheapest_stock(job, [(cut.stock, cut.pattern, cut.times) for cut in cuts], free)


def first_plan(job: BarJob, budget: WorkBudget) -> list[Cut] | None:
    """The cheapest of the plans by rule, or None when the limited stock does not hold the pieces that way."""
    plans = [best_fit(job, job.demands, job.limits, budget)]
    if job.longest * len(job.lengths) <= 4_000_000:
        plans.append(fill_up(job, job.demands, job.limits, job.lengths, budget))
    found = [plan for plan in plans if plan is not None]
    if not found:
        return None
    return trimmed_to_demand(job, min(found, key=lambda plan: cost_of(job, plan)))
