"""One sheet filled for the most worth with the pieces that are left: the table leads, from the whole sheet down.

The table allows a piece again and again. Once a piece is used up, the table is worked out anew for every rectangle
that the piece would fit.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.knapsack import Whole
from generator.calculators.cutting.sheets.job import DEEPEST, Layout, Leaf, SheetJob, cropped, reach, split
from generator.calculators.cutting.sheets.table import SheetTable, around


@dataclass(frozen=True)
class ValueTable:
    """A table of values, and which pieces it takes to be there."""

    best: Whole
    there: npt.NDArray[np.bool_]


class SheetFill:
    """Fills sheets of one job. The table's layouts must be real (sparse, not coarse)."""

    def __init__(self, job: SheetJob, table: SheetTable) -> None:
        self.job = job
        self.table = table
        ways = [(piece, *way) for piece in range(len(job.pieces)) for way in job.ways(piece)]
        self._piece = np.array([way[0] for way in ways], dtype=np.intp)
        self._wide = np.array([way[1] for way in ways], dtype=np.int64)
        self._high = np.array([way[2] for way in ways], dtype=np.int64)
        self._turned = [way[3] for way in ways]

    def value_table(
        self, values: npt.NDArray[np.int64], left: npt.NDArray[np.int64], budget: WorkBudget
    ) -> ValueTable:
        """The table for the pieces that are left."""
        there = left > 0
        self.table.fill(np.where(there, values, 0).tolist(), budget)
        return ValueTable(self.table.best, there)

    def layout(
        self,
        width: int,
        height: int,
        values: npt.NDArray[np.int64],
        left: npt.NDArray[np.int64],
        value_table: ValueTable,
        budget: WorkBudget,
        depth: int = 0,
    ) -> Layout:
        """A layout of a rectangle. Takes its pieces out of `left`."""
        table = self.table
        column, row = table.across.index(width), table.up.index(height)
        if int(value_table.best[column, row]) <= 0 or depth > DEEPEST:
            return Leaf(width, height)
        fits = (self._wide <= width) & (self._high <= height)
        used_up = value_table.there & (left <= 0)
        if (used_up[self._piece] & fits).any():
            there = left > 0
            best = table.part(np.where(there, values, 0).tolist(), column, row, budget)
            value_table = ValueTable(best, there)
        fits &= left[self._piece] > 0
        budget.spend(150 + len(self._wide) // 2)
        if not fits.any():
            return Leaf(width, height)
        way = int(np.argmax(np.where(fits, values[self._piece], -1)))
        upright, at, value = self._best_cut(width, height, value_table.best)
        if value <= values[self._piece[way]]:
            return self._around(width, height, way, values, left, value_table, budget, depth + 1)
        return self._divide(width, height, upright, at, values, left, value_table, budget, depth + 1)

    def _divide(
        self,
        width: int,
        height: int,
        upright: bool,
        at: int,
        values: npt.NDArray[np.int64],
        left: npt.NDArray[np.int64],
        value_table: ValueTable,
        budget: WorkBudget,
        depth: int = 0,
    ) -> Layout:
        """Fill the side that promises more, move the cut up to its pieces, fill the other side."""
        size = width if upright else height
        sides = [(part, height) if upright else (width, part) for part in (at, size - at)]
        if self._most(*sides[0], value_table.best) < self._most(*sides[1], value_table.best):
            at = size - at
            sides.reverse()
        first = self.layout(*sides[0], values, left, value_table, budget, depth)
        at = reach(first)[0 if upright else 1]
        first = cropped(first, at if upright else width, height if upright else at)
        rest = (width - at, height) if upright else (width, height - at)
        second = self.layout(*rest, values, left, value_table, budget, depth)
        return split(width, height, upright, at, first, second)

    def _most(self, width: int, height: int, best: Whole) -> int:
        return int(best[self.table.across.index(width), self.table.up.index(height)])

    def _best_cut(self, width: int, height: int, best: Whole) -> tuple[bool, int, int]:
        """The cut whose two sides promise most: upright or not, where, how much."""
        column, row = self.table.across.index(width), self.table.up.index(height)
        found = (True, 0, -1)
        near, far = self.table.across.halves(column)
        if len(near):
            sums = best[near, row] + best[far, row]
            choice = int(sums.argmax())
            found = (True, int(self.table.across.points[near[choice]]), int(sums[choice]))
        near, far = self.table.up.halves(row)
        if len(near):
            sums = best[column, near] + best[column, far]
            choice = int(sums.argmax())
            if int(sums[choice]) > found[2]:
                found = (False, int(self.table.up.points[near[choice]]), int(sums[choice]))
        return found

    def _around(
        self,
        width: int,
        height: int,
        way: int,
        values: npt.NDArray[np.int64],
        left: npt.NDArray[np.int64],
        value_table: ValueTable,
        budget: WorkBudget,
        depth: int = 0,
    ) -> Layout:
        """Put a piece in the corner and go on right of it and above it."""
        wide, high = int(self._wide[way]), int(self._high[way])
        left[self._piece[way]] -= 1
        leaf = Leaf(wide, high, int(self._piece[way]), self._turned[way])
        first = ((width - wide, height), (wide, height - high))
        second = ((width - wide, high), (width, height - high))
        gain = [sum(self._most(*size, value_table.best) for size in sizes) for sizes in (first, second)]
        waste = [max(size[0] * size[1] for size in sizes) for sizes in (first, second)]
        upright = (gain[0], waste[0]) >= (gain[1], waste[1])
        right, above = first if upright else second
        parts = [self.layout(*size, values, left, value_table, budget, depth) for size in (right, above)]
        return around(width, height, leaf, parts[0], parts[1], upright)
