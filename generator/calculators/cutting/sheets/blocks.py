"""Every layout that a cheaper plan can use: blocks of pieces, joined side by side and one on the other.

A block is kept while its worth and the most that can still be around it (from the table, outwards; the completion
bound of Velasco & Uchoa 2019) reach what a sheet must hold in a cheaper plan. Of blocks with the same pieces only
those stay that are not wider and higher than another. Without a gap in the joins this finds every layout that counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.knapsack import Whole
from generator.calculators.cutting.sheets.job import Layout, Leaf, SheetJob, split
from generator.calculators.cutting.sheets.table import SheetTable

Numbers = npt.NDArray[np.int64]

#: Pairs of blocks that are joined at once.
CHUNK = 400_000

#: Pairs that are compared, and pairs of blocks that fit, in one unit of work. Measured, no source.
PAIRED, FITTED = 30, 6

#: Most pieces of a block: its level is kept beside its place in one number.
MOST_PIECES = 63


@dataclass
class Blocks:
    """Blocks of equally many pieces: sizes, sizes at the table's grain, pieces as a packed number, worth, parents."""

    wide: Numbers
    high: Numbers
    coarse_wide: Numbers
    coarse_high: Numbers
    key: Numbers  # one row a block
    worth: Numbers
    first: Numbers
    second: Numbers
    upright: npt.NDArray[np.bool_]
    smallest: Numbers

    def __len__(self) -> int:
        return len(self.wide)

    def take(self, places: npt.NDArray[np.intp]) -> Blocks:
        """Some of the blocks."""
        return Blocks(*(getattr(self, name)[places] for name in self.__dataclass_fields__))

    def between(self, start: int, end: int) -> Blocks:
        """Those from one place to before another; nothing is copied."""
        return Blocks(*(getattr(self, name)[start:end] for name in self.__dataclass_fields__))


def joined(parts: Sequence[Blocks]) -> Blocks:
    """All blocks of several lists in one."""
    return Blocks(
        *(np.concatenate([getattr(part, name) for part in parts]) for name in Blocks.__dataclass_fields__)
    )


class Packing:
    """Counts of pieces in a few numbers: a field for each piece with a spare bit that shows when there are too many."""

    def __init__(self, demands: Sequence[int]) -> None:
        self._fields: list[tuple[int, int, int]] = []
        word = at = 0
        slack, over = [0], [0]
        for demand in demands:
            bits = demand.bit_length()
            if at + bits + 1 > 63:
                word, at = word + 1, 0
                slack.append(0)
                over.append(0)
            self._fields.append((word, at, (1 << bits) - 1))
            slack[word] |= ((1 << bits) - 1 - demand) << at
            over[word] |= 1 << (at + bits)
            at += bits + 1
        self.words = word + 1
        self.slack, self.over = slack, over

    def single(self, piece: int) -> list[int]:
        """One of a piece."""
        word, at, _ = self._fields[piece]
        return [1 << at if place == word else 0 for place in range(self.words)]

    def counts(self, key: Sequence[int]) -> tuple[int, ...]:
        """The counts again."""
        return tuple((key[word] >> at) & mask for word, at, mask in self._fields)


def outside(table: SheetTable, width: int, height: int) -> Whole:
    """The most worth that can be around a block of each size on a sheet.

    Around a block there is a part right of it and as high, above both a part as wide, and so on in turn.
    """
    across, up = table.across, table.up
    last_x, last_y = across.index(width), up.index(height)
    points_x, points_y = across.points[: last_x + 1] * across.grain, up.points[: last_y + 1] * up.grain
    best = table.best[: last_x + 1, : last_y + 1]
    to_edge = across.indexes(width - points_x), up.indexes(height - points_y)
    rises = points_y[None, :] - points_y[:, None]
    rise = up.indexes(np.maximum(0, rises))
    beside, above = np.zeros_like(best), np.zeros_like(best)
    for column in range(last_x, -1, -1):
        beside[column] = best[to_edge[0][column]]
        if column < last_x:
            gap = across.indexes(points_x[column + 1 :] - points_x[column])
            joined_up = (best[gap] + above[column + 1 :]).max(axis=0)
            np.maximum(beside[column], joined_up, out=beside[column])
        stacked = np.where(rises > 0, best[column][rise] + beside[column], 0).max(axis=1)
        above[column] = np.maximum(best[column, to_edge[1]], stacked)
    return np.maximum(beside, above)


def around_work(job: SheetJob, table: SheetTable) -> int:
    """Units of work for the worth around blocks on all sheets."""
    cells = [(table.across.index(width) + 1, table.up.index(height) + 1) for width, height in job.sheets]
    return sum(across * up * (across + up) // 60 for across, up in cells)


class BlockSearch:
    """Counts out the blocks for one job, one set of values and what each sheet must hold."""

    def __init__(
        self,
        job: SheetJob,
        table: SheetTable,
        values: Sequence[int],
        needs: Sequence[int],
        budget: WorkBudget,
    ) -> None:
        self.job = job
        self.table = table
        self.needs = needs
        self.budget = budget
        self.packing = Packing(job.demands)
        self.stocks = [s for s, limit in enumerate(job.limits) if limit != 0]
        self.around = [outside(table, *job.sheets[stock]) for stock in self.stocks]
        budget.spend(around_work(job, table))
        self.spare = self._spare()
        self.levels: list[Blocks] = [self._singles(values)]

    def _singles(self, values: Sequence[int]) -> Blocks:
        ways = [(piece, *way) for piece in range(len(self.job.pieces)) for way in self.job.ways(piece)]
        wide = np.array([way[1] for way in ways], dtype=np.int64)
        high = np.array([way[2] for way in ways], dtype=np.int64)
        blocks = Blocks(
            wide,
            high,
            wide // self.table.across.grain,
            high // self.table.up.grain,
            np.array([self.packing.single(way[0]) for way in ways], dtype=np.int64),
            np.array([values[way[0]] for way in ways], dtype=np.int64),
            np.array([way[0] for way in ways], dtype=np.int64),
            np.array([int(way[3]) for way in ways], dtype=np.int64),
            np.zeros(len(ways), dtype=np.bool_),
            np.ones(len(ways), dtype=np.int64),
        )
        sizes = blocks.wide, blocks.high, blocks.coarse_wide, blocks.coarse_high
        return blocks.take(self._useful(*sizes, blocks.worth))

    def _spare(self) -> Whole:
        """By how much at most a block of each size, without its worth, is beyond what a sheet must hold."""
        shape = max(len(each) for each in self.around), max(each.shape[1] for each in self.around)
        spare = np.full(shape, np.iinfo(np.int64).min // 2, dtype=np.int64)
        for stock, around in zip(self.stocks, self.around, strict=True):
            held = spare[: len(around), : around.shape[1]]
            np.maximum(held, around - self.needs[stock], out=held)
        return spare

    def _useful(
        self, wide: Numbers, high: Numbers, coarse_wide: Numbers, coarse_high: Numbers, worth: Numbers
    ) -> npt.NDArray[np.intp]:
        """Those that can be part of a layout that holds enough, on any sheet."""
        column, row = self.table.across.at(coarse_wide), self.table.up.at(coarse_high)
        good = np.flatnonzero(worth + self.spare[column, row] >= 0)  # most fail on every sheet
        wide, high, worth, column, row = (each[good] for each in (wide, high, worth, column, row))
        keep = np.zeros(len(good), dtype=np.bool_)
        for stock, around in zip(self.stocks, self.around, strict=True):
            width, height = self.job.sheets[stock]
            fits = (wide <= width) & (high <= height)
            # A block that fits has its place in the table; of others any place will do.
            more = around[np.minimum(column, len(around) - 1), np.minimum(row, around.shape[1] - 1)]
            keep |= fits & (worth + more >= self.needs[stock])
        return good[keep]

    def run(self, most: int) -> bool:
        """Join blocks until no larger ones come; False when there are more than `most` or the budget is spent."""
        total = len(self.levels[0])
        while True:
            found: list[Blocks] = []
            size = len(self.levels) + 1
            if size > MOST_PIECES:
                return False
            for small in range(1, size // 2 + 1):
                large = size - small
                for upright in (True, False):
                    parts = self._join(small - 1, large - 1, upright, most)
                    if parts is None:
                        return False
                    found += parts
            merged = self._best(joined(found)) if found else None
            if merged is None or not len(merged):
                # A larger block may still come from two smaller ones only if those exist.
                if size > 2 * len(self.levels):
                    return True
                merged = self.levels[0].take(np.zeros(0, dtype=np.intp))
            self.levels.append(merged)
            total += len(merged)
            if total > most or self.budget.spent:
                return False
            if all(not len(level) for level in self.levels[len(self.levels) // 2 :]):
                return True

    def _join(self, small: int, large: int, upright: bool, most: int) -> list[Blocks] | None:
        """All useful joins of blocks of two levels.

        A row of blocks is built once only: the smaller block comes last, is no row in the same direction itself, and
        has no more pieces than any block of the row.
        """
        two, one = self.levels[small], self.levels[large]
        last = np.flatnonzero(two.upright != upright) if small else np.arange(len(two))
        row = (
            np.flatnonzero((one.upright != upright) | (one.smallest > small))
            if large
            else np.arange(len(one))
        )
        if not len(last) or not len(row):
            return []
        size = one.wide if upright else one.high
        row = row[np.argsort(size[row], kind="stable")]
        size = two.wide if upright else two.high
        last = last[np.argsort(size[last], kind="stable")]
        one, two = one.take(row), two.take(last)
        size_one, size_two = (one.wide, two.wide) if upright else (one.high, two.high)
        fitting = np.searchsorted(size_two, self._longest(upright) - size_one, side="right").tolist()
        found: list[Blocks] = []
        start = total = 0
        while start < len(row) and fitting[start]:
            if self.budget.spent:
                return None
            end = start + max(1, CHUNK // fitting[start])
            with_it = last[: fitting[start]], two.between(0, fitting[start])
            blocks = self._pairs((large, row[start:end], one.between(start, end)), (small, *with_it), upright)
            found.append(blocks)
            total += len(blocks)
            if total > 4 * most:
                return None
            start = end
        return found

    def _longest(self, upright: bool) -> int:
        """The longest side of a sheet along a join."""
        return max(self.job.sheets[stock][0 if upright else 1] for stock in self.stocks)

    def _pairs(
        self,
        row: tuple[int, npt.NDArray[np.intp], Blocks],
        last: tuple[int, npt.NDArray[np.intp], Blocks],
        upright: bool,
    ) -> Blocks:
        """Joins of some blocks (their level, their places there, and themselves by size) with others."""
        one, two, places = row[2], last[2], last[1]
        size_one, size_two = (one.wide, two.wide) if upright else (one.high, two.high)
        self.budget.spend(50 + len(one) * len(two) * self.packing.words // PAIRED)
        keep = size_one[:, None] <= self._longest(upright) - size_two[None, :]
        for word, (slack, over) in enumerate(zip(self.packing.slack, self.packing.over, strict=True)):
            sums = one.key[:, None, word] + (two.key[None, :, word] + slack)
            keep &= (sums & over) == 0
        if row[0] == last[0]:
            keep &= row[1][:, None] >= places[None, :]
        a, b = np.nonzero(keep)
        self.budget.spend(len(a) // FITTED)

        def both(left: Numbers, right: Numbers, along: bool) -> Numbers:
            return left[a] + right[b] if along else np.maximum(left[a], right[b])

        wide, high = both(one.wide, two.wide, upright), both(one.high, two.high, not upright)
        coarse_wide = both(one.coarse_wide, two.coarse_wide, upright)
        coarse_high = both(one.coarse_high, two.coarse_high, not upright)
        worth = one.worth[a] + two.worth[b]
        good = self._useful(wide, high, coarse_wide, coarse_high, worth)
        a, b = a[good], b[good]
        return Blocks(
            wide[good],
            high[good],
            coarse_wide[good],
            coarse_high[good],
            one.key[a] + two.key[b],
            worth[good],
            row[1][a] * 64 + row[0],
            places[b] * 64 + last[0],
            np.full(len(a), upright, dtype=np.bool_),
            np.full(len(a), last[0] + 1, dtype=np.int64),
        )

    def _best(self, blocks: Blocks) -> Blocks:
        """Of blocks with the same pieces, those that no other is within."""
        if not len(blocks):
            return blocks
        order = np.lexsort((blocks.high, blocks.wide, *blocks.key.T))
        self.budget.spend(2 * len(order) // 3)
        key, high = blocks.key[order], blocks.high[order]
        fresh = np.concatenate(([True], (key[1:] != key[:-1]).any(axis=1)))
        # Lowered from group to group, so that the lowest so far starts anew with every group.
        lowered = high - np.cumsum(fresh) * (int(high.max()) + 1)
        lowest = np.minimum.accumulate(lowered)
        keep = np.concatenate(([True], lowered[1:] < lowest[:-1]))
        return blocks.take(order[keep])

    def columns(self) -> dict[Column, tuple[int, int]]:
        """The layouts that hold enough, by their pieces: level and place of each."""
        found: dict[Column, tuple[int, int]] = {}
        for level in range(len(self.levels) - 1, -1, -1):
            blocks = self.levels[level]
            for stock in self.stocks:
                width, height = self.job.sheets[stock]
                good = (blocks.wide <= width) & (blocks.high <= height) & (blocks.worth >= self.needs[stock])
                for place in np.flatnonzero(good).tolist():
                    column = (stock, self.packing.counts(blocks.key[place].tolist()))
                    found.setdefault(column, (level, place))
        return found

    def on_sheet(self, stock: int, level: int, place: int) -> Layout:
        """A block as the layout of a sheet."""
        width, height = self.job.sheets[stock]
        blocks = self.levels[level]
        wide, high = int(blocks.wide[place]), int(blocks.high[place])
        inner = self._layout(level, place, wide, high)
        below = split(width, high, True, wide, inner, Leaf(width - wide, high))
        return split(width, height, False, high, below, Leaf(width, height - high))

    def _layout(self, level: int, place: int, width: int, height: int) -> Layout:
        """The block in a rectangle at least as large in the direction across its cut."""
        blocks = self.levels[level]
        wide, high = int(blocks.wide[place]), int(blocks.high[place])
        inner: Layout
        if level == 0:
            inner = Leaf(wide, high, int(blocks.first[place]), bool(blocks.second[place]))
        else:
            upright = bool(blocks.upright[place])
            parts = [divmod(int(parent[place]), 64) for parent in (blocks.first, blocks.second)]
            (one, level_one), (two, level_two) = parts
            first = self.levels[level_one]
            at = int(first.wide[one] if upright else first.high[one])
            sizes = ((at, high), (wide - at, high)) if upright else ((wide, at), (wide, high - at))
            inner = split(
                wide,
                high,
                upright,
                at,
                self._layout(level_one, one, *sizes[0]),
                self._layout(level_two, two, *sizes[1]),
            )
        below = split(width, high, True, wide, inner, Leaf(width - wide, high)) if width > wide else inner
        return (
            split(width, height, False, high, below, Leaf(width, height - high)) if height > high else below
        )
