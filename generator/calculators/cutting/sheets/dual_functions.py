"""What sheets must cost at least by dual feasible functions: quick, and strong where a few large pieces fill a sheet.

A function of the share that a side takes is feasible when the values of all sides in a row never add up to more than
the value of the room. A piece is worth the value of its width times that of its height; sheets hold no more than
theirs (Fekete & Schepers, Mathematical Methods of Operations Research 60, 2004). The functions here are superadditive,
so that they hold for every smaller sheet too. Whole numbers, rounded to the safe side.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.bounds import Duals, least_cost
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.knapsack import Whole
from generator.calculators.cutting.sheets.job import SheetJob

Shares = npt.NDArray[np.float64]

#: The worth of the largest sheet.
WORTH = 1 << 30

#: Steps of the functions that round down, and the most thresholds that are tried of the others.
STEPS, MOST_THRESHOLDS = 9, 60

#: The most values that are compared, and how many of the best pairs of functions are settled in whole numbers.
MOST_VALUES, SETTLED = 4_000_000, 4


class StepFunction(NamedTuple):
    """Of the share of a room: rounded down on a grid of `steps`; what is below `least` left out (0 of both: itself)."""

    steps: int = 0
    least: int = 0

    def exact(self, size: int, room: int) -> Fraction:
        """The value of one size."""
        share = Fraction(size, room)
        if self.steps:
            parts = (self.steps + 1) * size
            return share if parts % room == 0 else Fraction(parts // room, self.steps)
        if size < self.least:
            return Fraction(0)
        return Fraction(1) if size > room - self.least else share

    def of(self, sizes: Whole, room: int) -> Shares:
        """The values of many sizes."""
        share: Shares = sizes / room
        if self.steps:
            parts = (self.steps + 1) * sizes
            return np.where(parts % room == 0, share, parts // room / self.steps)
        return np.where(sizes < self.least, 0.0, np.where(sizes > room - self.least, 1.0, share))


def best_duals(job: SheetJob, dearest: int, budget: WorkBudget) -> Duals | None:
    """The duals of the pair of functions that proves most; None when a piece fits no sheet."""
    room = (max(wide for wide, _ in job.sheets), max(high for _, high in job.sheets))
    ways = [
        [way[:2] for way in job.ways(piece) if way[0] <= room[0] and way[1] <= room[1]]
        for piece in range(len(job.pieces))
    ]
    if not all(ways):
        return None
    # a piece that lies one way only takes that way twice
    sides = [
        np.array([[own[turned % len(own)][axis] for own in ways] for turned in (0, 1)], dtype=np.int64)
        for axis in (0, 1)
    ]
    most = min(MOST_THRESHOLDS, max(1, int((MOST_VALUES // sides[0].size) ** 0.5) - STEPS - 1))
    families = [_functions(own, end, most) for own, end in zip(sides, room, strict=True)]
    budget.spend(len(families[0]) * len(families[1]) * sides[0].size // 100 + 2000)
    pairs = _ranked(job, families, sides, room)
    proofs = [_whole(job, families[0][one], families[1][two], ways, room) for one, two in pairs[:SETTLED]]
    return max(proofs, key=lambda proof: least_cost(job.areas, proof, dearest, budget))


def _functions(sides: Whole, room: int, most: int) -> list[StepFunction]:
    """Functions to try, thresholds at the sizes of the pieces and at what they leave."""
    ends = np.minimum(sides, room - sides)
    thresholds = sorted({*ends[ends > 0].tolist(), room // 2})
    rounded = [StepFunction(steps=steps) for steps in range(STEPS + 1)]
    return rounded + [StepFunction(least=least) for least in thresholds[:: -(-len(thresholds) // most)]]


def _ranked(
    job: SheetJob, families: Sequence[Sequence[StepFunction]], sides: Sequence[Whole], room: Sequence[int]
) -> list[tuple[int, int]]:
    """Pairs of functions, those first that ask for most sheets at their price."""
    across, up = (
        np.array([function.of(own, end) for function in family])
        for family, own, end in zip(families, sides, room, strict=True)
    )
    sheets = np.array(job.sheets, dtype=np.int64)
    held = [
        np.array([function.of(sheets[:, axis], room[axis]) for function in family])
        for axis, family in enumerate(families)
    ]
    demands = np.array(job.demands, dtype=np.float64)
    prices = np.array([max(price, 1e-9) for price in job.prices])
    free = np.array([limit is None for limit in job.limits])
    free |= not free.any()
    merits = []
    for place, values in enumerate(across):
        worth = np.minimum(values[0] * up[:, 0], values[1] * up[:, 1]) @ demands
        best = (held[0][place] * held[1] / prices)[:, free].max(axis=1)
        merits.append(worth / np.maximum(best, 1e-12))
    order = np.argsort(-np.array(merits), axis=None, kind="stable")[:SETTLED]
    return [divmod(int(each), len(families[1])) for each in order]


def _whole(
    job: SheetJob,
    across: StepFunction,
    up: StepFunction,
    ways: Sequence[Sequence[tuple[int, ...]]],
    room: Sequence[int],
) -> Duals:
    """The duals of two functions: pieces rounded down, sheets rounded up."""

    def value(width: int, height: int) -> Fraction:
        return WORTH * across.exact(width, room[0]) * up.exact(height, room[1])

    worths = tuple(int(min(value(*way) for way in own)) for own in ways)
    most = tuple(-int(-value(*sheet) // 1) for sheet in job.sheets)
    need = sum(worth * demand for worth, demand in zip(worths, job.demands, strict=True))
    return Duals(worths, most, need)
