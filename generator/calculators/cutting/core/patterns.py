"""Every pattern that a plan below a wished cost can use: enumerated, level by level, from duals and their bound.

A plan of cost T can only use patterns whose reduced cost is at most T less the Lagrangian bound (Baldacci,
Christofides & Mingozzi 2008). All in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.bounds import Duals
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import BarJob
from generator.calculators.cutting.core.knapsack import Whole, binary_split

#: Cells of the table of what the remaining pieces are worth, and counts of all patterns; above this the patterns are
#: not enumerated.
LARGEST_TABLE, LARGEST_LIST = 12_000_000, 20_000_000


def enumerate_patterns(
    job: BarJob,
    duals: Sequence[int],
    needs: Sequence[int],
    widest: int,
    budget: WorkBudget,
    maximal: bool = True,
) -> list[Column] | None:
    """All (maximal) patterns worth at least `needs[s]` on stock s; None when there are more than `widest`."""
    if len(job.lengths) * job.longest > LARGEST_TABLE:
        return None
    widest = min(widest, LARGEST_LIST // (4 * len(job.lengths)))
    suffix = _suffix_tables(job, duals, budget)
    found: list[Column] = []
    for stock, capacity in enumerate(job.capacities):
        if job.limits[stock] == 0:
            continue
        patterns = _patterns(job, duals, suffix, capacity, needs[stock], widest - len(found), budget, maximal)
        if patterns is None:
            return None
        found += [(stock, tuple(row)) for row in patterns.tolist() if any(row)]
    return found


def needs_for_cost(job: BarJob, proof: Duals, target: int) -> list[int]:
    """What a bar must at least hold in a plan of cost at most `target`.

    With u the worth that one step of price buys on the unlimited stock that buys most, a bar that holds w wastes u *
    price - w (limited stock may save instead), and a plan can waste u * target less all pieces' worth.
    """
    free = [s for s, limit in enumerate(job.limits) if limit is None and job.prices[s] > 0]
    if not free:
        return [0] * len(job.prices)
    best = max(free, key=lambda s: Fraction(proof.most[s], job.prices[s]))
    up, down = proof.most[best], job.prices[best]
    waste = up * target - down * proof.need
    for most, price, limit in zip(proof.most, job.prices, job.limits, strict=True):
        if limit is not None:
            waste += max(0, down * most - up * price) * limit
    needs = []
    for most, price, limit in zip(proof.most, job.prices, job.limits, strict=True):
        ideal = up * price if limit is None else max(up * price, down * most)
        needs.append(-((waste - ideal) // down))
    return needs


def needs_for_bars(proof: Duals, counts: Sequence[int]) -> list[int]:
    """What a bar must at least hold when these bars are to hold all pieces: its most, less what all may waste."""
    waste = sum(most * count for most, count in zip(proof.most, counts, strict=True)) - proof.need
    return [most - waste for most in proof.most]


def _suffix_tables(job: BarJob, duals: Sequence[int], budget: WorkBudget) -> list[Whole]:
    """For each piece onwards, the best worth for every capacity."""
    table = np.zeros(job.longest + 1, dtype=np.int64)
    tables = [table]
    for length, demand, worth in reversed(list(zip(job.lengths, job.demands, duals, strict=True))):
        table = table.copy()
        for part in binary_split(min(demand, job.longest // length)):
            size = part * length
            np.maximum(table[size:], table[: len(table) - size] + part * worth, out=table[size:])
        tables.append(table)
    budget.spend(len(tables) * (20 + job.longest // 200))
    return tables[::-1]


def _patterns(
    job: BarJob,
    duals: Sequence[int],
    suffix: list[Whole],
    capacity: int,
    need: int,
    widest: int,
    budget: WorkBudget,
    maximal: bool,
) -> npt.NDArray[np.int16] | None:
    """Maximal patterns on one stock whose worth is at least `need`."""
    rest = np.array([capacity], dtype=np.int64)
    worth = np.zeros(1, dtype=np.int64)
    steps: list[tuple[npt.NDArray[np.int64], npt.NDArray[np.int16]]] = []
    for index, length in enumerate(job.lengths):
        after = suffix[index + 1]
        parents, counts, rests, sums = [], [], [], []
        kept = 0
        for count in range(min(job.demands[index], capacity // length) + 1):
            left = rest - count * length
            own = worth + count * duals[index]
            keep = np.flatnonzero((left >= 0) & (own + after[np.maximum(left, 0)] >= need))
            kept += len(keep)
            budget.spend(2 + len(rest) // 100 + len(keep) // 20)
            if kept > 4 * widest or budget.spent:
                return None
            parents.append(keep)
            counts.append(np.full(len(keep), count, dtype=np.int16))
            rests.append(left[keep])
            sums.append(own[keep])
        steps.append((np.concatenate(parents), np.concatenate(counts)))
        rest, worth = np.concatenate(rests), np.concatenate(sums)
        budget.spend(20)
    result = np.zeros((len(rest), len(job.lengths)), dtype=np.int16)
    place = np.arange(len(rest))
    for index in range(len(steps) - 1, -1, -1):
        parents_of, count_of = steps[index]
        result[:, index] = count_of[place]
        place = parents_of[place]
    if not maximal:
        return result if len(result) <= widest else None
    lengths = np.array(job.lengths, dtype=np.int64)
    full = ~((result < np.array(job.demands)) & (rest[:, None] >= lengths)).any(axis=1)
    return result[full] if int(full.sum()) <= widest else None
