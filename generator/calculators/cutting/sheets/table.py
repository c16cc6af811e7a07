"""The most worth that guillotine cuts of any number of stages get from every rectangle: an upper bound for sheets.

Dynamic programming (Gilmore & Gomory 1965; Beasley 1985; Cintra, Miyazawa, Wakabayashi & Xavier 2008) over normal
points: positions that are sums of piece sizes, each at most as often as it is needed. Pieces may repeat in a
rectangle without limit, so the table never says too little. All in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.knapsack import Whole, binary_split
from generator.calculators.cutting.sheets.job import DEEPEST, Layout, Leaf, SheetJob, Split, split

#: Pairs of parts that are compared in one unit of work. Measured, no source.
PAIRS = 60

Index = npt.NDArray[np.intp]


def normal_points(sizes: Sequence[tuple[int, int]], longest: int) -> Index:
    """Every sum of sizes up to `longest`, each size at most as often as its count says (Herz 1972)."""
    reached = np.zeros(longest + 1, dtype=np.bool_)
    reached[0] = True
    together: dict[int, int] = {}
    for size, count in sizes:
        together[size] = together.get(size, 0) + count
    for size, count in together.items():
        if 0 < size <= longest:
            for part in binary_split(min(count, longest // size)):
                step = part * size
                reached[step:] |= reached[: longest + 1 - step].copy()
    return np.flatnonzero(reached)


class Axis:
    """The points of one axis, in steps of `grain`."""

    def __init__(self, points: Index, longest: int, grain: int = 1) -> None:
        self.grain = grain
        self.points = points
        self.size = len(points)
        self._floor = np.searchsorted(points, np.arange(longest // grain + 1), side="right") - 1

    @classmethod
    def coarse(cls, sizes: Sequence[tuple[int, int]], longest: int, grain: int) -> Axis:
        """Sizes of pieces and of the sheet are rounded down: whatever fits, fits the axis; more may, too."""
        points = normal_points([(size // grain, count) for size, count in sizes], longest // grain)
        return cls(points, longest, grain)

    @classmethod
    def sparse(cls, sizes: Sequence[tuple[int, int]], longest: int, most: int) -> Axis:
        """Sizes and, of each stretch, the longest sum: whatever fits the axis, fits; some that fits may be missed."""
        points = normal_points(sizes, longest)
        if len(points) > most:
            stretch = -(-longest // most)
            last = np.flatnonzero(np.diff(points // stretch, append=longest))
            single = np.array([0, *(size for size, _ in sizes if size <= longest)], dtype=np.intp)
            points = np.union1d(points[last], single)
        return cls(points, longest)

    def index(self, size: int) -> int:
        """The last point that is not beyond a size."""
        return int(self._floor[min(size // self.grain, len(self._floor) - 1)])

    def indexes(self, sizes: Whole) -> Index:
        """The same for many sizes."""
        return self._floor[np.minimum(sizes // self.grain, len(self._floor) - 1)]

    def at(self, grains: Whole) -> Index:
        """The last point that is not beyond a length, of many lengths in grains."""
        return self._floor[np.minimum(grains, len(self._floor) - 1)]

    def halves(self, index: int) -> tuple[Index, Index]:
        """Every way to cut a point's length in two: the smaller part, and the point below what is left."""
        length = self.points[index]
        first = np.arange(1, int(np.searchsorted(self.points, length // 2, side="right")))
        return first, self._floor[length - self.points[first]]


class SheetTable:
    """The table for one job over two axes; see `Axis` for what coarse and sparse ones mean for its values."""

    def __init__(self, job: SheetJob, across: Axis, up: Axis) -> None:
        self.job = job
        self.across = across
        self.up = up
        self._level = self._pairs()
        self._upright = [self.across.halves(index) for index in range(self.across.size)]
        cells = [[self._place(wide, high) for wide, high, _ in job.ways(p)] for p in range(len(job.pieces))]
        self.cells = [[cell for cell in own if cell[0] >= 0] for own in cells]
        self.best: Whole = np.zeros((self.across.size, self.up.size), dtype=np.int64)

    def _pairs(self) -> tuple[Index, Index, Index, Index]:
        """All pairs of heights that make up each height, one after the other, with where each height's start."""
        firsts, seconds, starts, heights = [], [], [], []
        at = 0
        for index in range(self.up.size):
            first, second = self.up.halves(index)
            if len(first):
                firsts.append(first)
                seconds.append(second)
                starts.append(at)
                heights.append(index)
                at += len(first)
        empty = np.zeros(0, dtype=np.intp)
        return (
            np.concatenate(firsts) if firsts else empty,
            np.concatenate(seconds) if seconds else empty,
            np.array(starts, dtype=np.intp),
            np.array(heights, dtype=np.intp),
        )

    @property
    def work(self) -> int:
        """Units of work that it takes to fill the whole table, when a column's level cuts settle at the second look."""
        columns = self.across.size
        return _least_work(columns, self.up.size, len(self.cells)) + columns * 2 * (
            15 + len(self._level[0]) // PAIRS
        )

    def fill(self, values: Sequence[int], budget: WorkBudget) -> None:
        """Work out the whole table for values of the pieces."""
        self.best = self.part(values, self.across.size - 1, self.up.size - 1, budget)

    def part(self, values: Sequence[int], column: int, row: int, budget: WorkBudget) -> Whole:
        """The table up to one cell."""
        best = self._single(values, column, row)
        first, second, starts, heights = self._level
        rows = int(np.searchsorted(heights, row, side="right"))
        pairs = int(starts[rows]) if rows < len(starts) else len(first)
        first, second, starts, heights = first[:pairs], second[:pairs], starts[:rows], heights[:rows]
        work = _least_work(column, row, len(self.cells))
        for at in range(1, column + 1):
            line = best[at]
            left, right = self._upright[at]
            if len(left):
                np.maximum(line, (best[left] + best[right]).max(axis=0), out=line)
            while rows:
                work += 15 + pairs // PAIRS
                joined = np.maximum.reduceat(line[first] + line[second], starts)
                if not (joined > line[heights]).any():
                    break
                line[heights] = np.maximum(line[heights], joined)
                np.maximum.accumulate(line, out=line)
        budget.spend(work)
        return best

    def _single(self, values: Sequence[int], last_column: int, last_row: int) -> Whole:
        """The worth of the best single piece in each rectangle."""
        best = np.zeros((last_column + 1, last_row + 1), dtype=np.int64)
        for piece, worth in enumerate(values):
            if worth > 0:
                for column, row in self.cells[piece]:
                    if column <= last_column and row <= last_row:
                        best[column, row] = max(best[column, row], worth)
        np.maximum.accumulate(best, axis=0, out=best)
        np.maximum.accumulate(best, axis=1, out=best)
        return best

    def _place(self, width: int, height: int) -> tuple[int, int]:
        """The smallest cell that holds a rectangle, or -1 when none does."""
        column, row = self.across.index(width), self.up.index(height)
        fits = self.across.points[column] == width // self.across.grain
        fits &= self.up.points[row] == height // self.up.grain
        return (column, row) if fits else (-1, -1)

    def fits(self, width: int, height: int, column: int, row: int) -> bool:
        """Whether a piece fits a cell, at the table's grain."""
        points_x, points_y = self.across.points, self.up.points
        return bool(
            width // self.across.grain <= points_x[column] and height // self.up.grain <= points_y[row]
        )

    def most(self, width: int, height: int) -> int:
        """The most worth from a rectangle."""
        return int(self.best[self.across.index(width), self.up.index(height)])

    def layout(self, width: int, height: int, values: Sequence[int]) -> Layout:
        """A layout of the most worth. Only for a table of grain 1, whose cells are real rectangles."""
        return TableLayouts(self, values).layout(width, height)

    def around_piece(self, width: int, height: int, way: tuple[int, int, int, bool]) -> tuple[int, Layout]:
        """The most worth around a piece (its place, size, whether turned) in the corner, and the empty layout."""
        piece, wide, high, turned = way
        upright = self.most(width - wide, height) + self.most(wide, height - high)
        level = self.most(width - wide, high) + self.most(width, height - high)
        leaf = Leaf(wide, high, piece, turned)
        return max(upright, level), around(width, height, leaf, None, None, upright >= level)


class TableLayouts:
    """Layouts of the most worth from a table that is filled for `values`; a rectangle is laid out once."""

    def __init__(self, table: SheetTable, values: Sequence[int]) -> None:
        self.table = table
        self.laid = 0
        self._pieces: dict[int, list[int]] = {}
        for piece, value in enumerate(values):
            self._pieces.setdefault(value, []).append(piece)
        self._known: dict[tuple[int, int], Layout] = {}

    def layout(self, width: int, height: int) -> Layout:
        """The layout of a rectangle."""
        return self._layout(self.table.across.index(width), self.table.up.index(height), width, height, 0)

    def filled(self, layout: Layout) -> Layout:
        """A layout with its waste filled for the most worth."""
        if isinstance(layout, Split):
            first, second = self.filled(layout.first), self.filled(layout.second)
            return split(layout.width, layout.height, layout.upright, layout.at, first, second)
        return layout if layout.piece >= 0 else self.layout(layout.width, layout.height)

    def _layout(self, column: int, row: int, width: int, height: int, depth: int) -> Layout:
        known = self._known.get((width, height))
        if known is None:
            known = self._known[width, height] = self._new_layout(column, row, width, height, depth)
            self.laid += 1
        return known

    def _new_layout(self, column: int, row: int, width: int, height: int, depth: int) -> Layout:
        table, best = self.table, self.table.best
        value = int(best[column, row])
        if value <= 0 or depth > DEEPEST:
            return Leaf(width, height)
        for piece in self._pieces.get(value, ()):
            for wide, high, turned in table.job.ways(piece):
                if table.fits(wide, high, column, row):
                    return around(width, height, Leaf(wide, high, piece, turned), None, None, False)
        low, high_part = table.across.halves(column)
        if len(low):
            sums = best[low, row] + best[high_part, row]
            choice = int(sums.argmax())
            if int(sums[choice]) >= value:
                at = int(table.across.points[low[choice]])
                first = self._layout(int(low[choice]), row, at, height, depth + 1)
                second = self._layout(int(high_part[choice]), row, width - at, height, depth + 1)
                return split(width, height, True, at, first, second)
        low, high_part = table.up.halves(row)
        choice = int((best[column, low] + best[column, high_part]).argmax())
        at = int(table.up.points[low[choice]])
        first = self._layout(column, int(low[choice]), width, at, depth + 1)
        second = self._layout(column, int(high_part[choice]), width, height - at, depth + 1)
        return split(width, height, False, at, first, second)


def _least_work(columns: int, rows: int, pieces: int) -> int:
    """Units for all upright cuts, of which a column has a quarter as many as there are columns before it."""
    return 40 + 2 * pieces + columns * (35 + columns * rows // (8 * PAIRS))


def sizes_on(job: SheetJob, axis: int) -> tuple[list[tuple[int, int]], int]:
    """The sizes of the pieces along an axis (0 across, 1 up) with their counts, and the longest sheet."""
    sizes = [(way[axis], job.demands[piece]) for piece in range(len(job.pieces)) for way in job.ways(piece)]
    return sizes, max(sheet[axis] for sheet in job.sheets)


def sparse_table(job: SheetJob, most: int) -> SheetTable:
    """A table whose layouts are real, with at most about `most` points on each axis."""
    across, up = (Axis.sparse(*sizes_on(job, axis), most) for axis in (0, 1))
    return SheetTable(job, across, up)


def around(
    width: int, height: int, piece: Leaf, right: Layout | None, above: Layout | None, upright: bool
) -> Layout:
    """A piece in the lower left corner with what is right of it and above it; `upright`: that cut comes first."""
    if upright:
        right = right or Leaf(width - piece.width, height)
        above = above or Leaf(piece.width, height - piece.height)
        left = split(piece.width, height, False, piece.height, piece, above)
        return split(width, height, True, piece.width, left, right)
    right = right or Leaf(width - piece.width, piece.height)
    above = above or Leaf(width, height - piece.height)
    below = split(width, piece.height, True, piece.width, piece, right)
    return split(width, height, False, piece.height, below, above)
