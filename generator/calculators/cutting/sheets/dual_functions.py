"""What sheets must cost at least by dual feasible functions: quick, and strong where a few large pieces fill a sheet.

A function of the share that a side takes is feasible when the values of all sides in a row never add up to more than
the value of the room. A piece is worth the value of its width times that of its height; sheets hold no more than
theirs (Fekete & Schepers, Mathematical Methods of Operations Research 60, 2004). The functions here are superadditive,
so that they hold for every smaller sheet too. Whole numbers, rounded to the safe side.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

import numpy as np

from generator.calculators.cutting.core.bounds import Duals, least_cost
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.job import SheetJob

#: The worth of the largest sheet.
WORTH = 1 << 30

#: Steps of the functions that round down, and the most thresholds that are tried of the others.
STEPS, MOST_THRESHOLDS = 9, 60

#: The most values that are compared, and how many of the best pairs of functions are settled in whole numbers.
MOST_VALUES, SETTLED = 4_000_000, 4

Share = Callable[[Fraction], Fraction]


def best_duals(job: SheetJob, dearest: int, budget: WorkBudget) -> Duals | None:
    """The duals of the pair of functions that proves most; None when a piece fits no sheet."""
    room = tuple(max(sheet[axis] for sheet in job.sheets) for axis in (0, 1))
    ways = [
        [way[:2] for way in job.ways(piece) if way[0] <= room[0] and way[1] <= room[1]]
        for piece in range(len(job.pieces))
    ]
    if not all(ways):
        return None
    # a piece that lies one way only takes that way twice
    sides = [
        [Fraction(own[turned % len(own)][axis], room[axis]) for turned in (0, 1) for own in ways]
        for axis in (0, 1)
    ]
    most = min(MOST_THRESHOLDS, max(1, int((MOST_VALUES // len(sides[0])) ** 0.5) - STEPS - 1))
    families = [list(_functions(each, most)) for each in sides]
    pairs = _ranked(job, families, sides, room)
    budget.spend(len(families[0]) * len(families[1]) * len(sides[0]) // 200 + 1000)
    proofs = [_whole(job, families[0][one], families[1][two], ways, room) for one, two in pairs[:SETTLED]]
    return max(proofs, key=lambda proof: least_cost(job.areas, proof, dearest, budget))


def _functions(shares: Sequence[Fraction], most: int) -> Iterator[Share]:
    """The share itself, rounded down to steps, and with what is below a threshold left out."""
    yield lambda share: share
    for steps in range(1, STEPS + 1):
        yield lambda share, n=steps: (  # type: ignore[misc]
            share if ((n + 1) * share).denominator == 1 else Fraction((n + 1) * share // 1, n)
        )
    half = Fraction(1, 2)
    thresholds = sorted({min(share, 1 - share) for share in shares if share < 1} | {half})
    for least in thresholds[:: -(-len(thresholds) // most)]:
        yield lambda share, e=least: 1 if share > 1 - e else share if share >= e else Fraction(0)  # type: ignore[misc]


def _ranked(
    job: SheetJob,
    families: Sequence[Sequence[Share]],
    sides: Sequence[Sequence[Fraction]],
    room: Sequence[int],
) -> list[tuple[int, int]]:
    """Pairs of functions, those first that ask for most sheets at their price."""
    count = len(job.pieces)
    across, up = (
        np.array([[float(function(share)) for share in own] for function in family])
        for family, own in zip(families, sides, strict=True)
    )
    demands = np.array(job.demands, dtype=np.float64)
    held = [
        np.array(
            [
                [float(function(Fraction(sheet[axis], room[axis]))) for sheet in job.sheets]
                for function in family
            ]
        )
        for axis, family in enumerate(families)
    ]
    prices = np.array([max(price, 1e-9) for price in job.prices])
    free = np.array([limit is None for limit in job.limits])
    merits = []
    for place, row in enumerate(across):
        worth = np.minimum(row[:count] * up[:, :count], row[count:] * up[:, count:]) @ demands
        per_price = held[0][place] * held[1] / prices
        best = per_price[:, free].max(axis=1) if free.any() else per_price.max(axis=1)
        merits.append(worth / np.maximum(best, 1e-12))
    order = np.argsort(-np.array(merits), axis=None, kind="stable")[: 4 * SETTLED]
    return [divmod(int(each), len(families[1])) for each in order]


def _whole(
    job: SheetJob, across: Share, up: Share, ways: Sequence[Sequence[tuple[int, ...]]], room: Sequence[int]
) -> Duals:
    """The duals of two functions: pieces rounded down, sheets rounded up."""

    def value(width: int, height: int) -> Fraction:
        return WORTH * across(Fraction(width, room[0])) * up(Fraction(height, room[1]))

    worths = tuple(int(min(value(*way) for way in own)) for own in ways)
    most = tuple(-int(-value(*sheet) // 1) for sheet in job.sheets)
    need = sum(worth * demand for worth, demand in zip(worths, job.demands, strict=True))
    return Duals(worths, most, need)
