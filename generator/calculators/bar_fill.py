"""First plans for bars by simple rules: best fit, and filling each bar as full as its longest piece allows."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.calculators.bar_job import BarJob, Cut, Pattern, cost_of, trimmed_to_demand
from generator.calculators.bar_knapsack import Knapsack
from generator.calculators.effort import Effort


def best_fit(job: BarJob, demands: Sequence[int], limits: Sequence[int | None]) -> list[Cut] | None:
    """Longest piece first, each into the open bar that it fills best; a new bar is the cheapest by length.

    Every bar is at last changed for the cheapest stock that holds its pieces.
    """
    left = list(limits)
    open_bars: list[tuple[int, int, list[int]]] = []
    for index, length in enumerate(job.lengths):
        for _ in range(demands[index]):
            fits = [
                (rest - length, place) for place, (rest, _s, _p) in enumerate(open_bars) if rest >= length
            ]
            if fits:
                rest, place = min(fits)
                _, stock, counts = open_bars[place]
            else:
                choice = _new_bar(job, length, left)
                if choice is None:
                    return None
                stock, counts, place = choice, [0] * len(job.lengths), len(open_bars)
                rest = job.capacities[stock] - length
                open_bars.append((rest, stock, counts))
                limit = left[stock]
                left[stock] = None if limit is None else limit - 1
            counts[index] += 1
            open_bars[place] = (rest, stock, counts)
    return _on_cheapest_stock(job, [(stock, tuple(counts)) for _, stock, counts in open_bars], left)


def _new_bar(job: BarJob, length: int, left: Sequence[int | None]) -> int | None:
    usable = [s for s, capacity in enumerate(job.capacities) if capacity >= length and left[s] != 0]
    if not usable:
        return None
    return min(usable, key=lambda s: (Fraction(job.prices[s], job.capacities[s]), -job.capacities[s]))


def _on_cheapest_stock(job: BarJob, bars: list[tuple[int, Pattern]], left: list[int | None]) -> list[Cut]:
    """Move every bar's pieces to a cheaper stock that holds them, the fullest bars first."""
    cuts: list[Cut] = []
    for stock, pattern in sorted(bars, key=lambda bar: -job.used(bar[1])):
        used = job.used(pattern)
        cheaper = [s for s, capacity in enumerate(job.capacities) if capacity >= used and left[s] != 0]
        best = min([*cheaper, stock], key=lambda s: (job.prices[s], s != stock, job.capacities[s]))
        if best != stock:
            for changed, step in ((stock, 1), (best, -1)):
                limit = left[changed]
                left[changed] = None if limit is None else limit + step
        cuts.append(Cut(best, pattern, 1))
    return cuts


def fill_up(
    job: BarJob,
    demands: Sequence[int],
    limits: Sequence[int | None],
    worth: Sequence[int],
    effort: Effort,
) -> list[Cut] | None:
    """Take the longest piece left and fill its bar to the highest `worth`, on the stock that pays it best.

    With `worth` = length this is the fill rule; with the prices of a linear program it is their rounding.
    """
    left, free = list(demands), list(limits)
    cuts: list[Cut] = []
    while any(left):
        first = next(index for index, count in enumerate(left) if count)
        rest = [count - (index == first) for index, count in enumerate(left)]
        room = job.longest - job.lengths[first]
        knapsack = Knapsack(job.lengths, rest, room)
        table = knapsack.table(worth, effort)
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
    spread = [(cut.stock, cut.pattern) for cut in cuts for _ in range(cut.times)]
    return _on_cheapest_stock(job, spread, free)


def first_plan(job: BarJob, effort: Effort) -> list[Cut] | None:
    """The cheapest of the plans by rule, or None when the limited stock does not hold the pieces that way."""
    plans = [best_fit(job, job.demands, job.limits)]
    if job.longest * len(job.lengths) <= 4_000_000:
        plans.append(fill_up(job, job.demands, job.limits, job.lengths, effort))
    found = [plan for plan in plans if plan is not None]
    if not found:
        return None
    return trimmed_to_demand(job, min(found, key=lambda plan: cost_of(job, plan)))
