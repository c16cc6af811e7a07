"""The most worth that sheets cut in three stages can hold: an upper bound, closer than that of all guillotine cuts.

A strip is filled by a knapsack over columns, whose pieces have one width; a sheet by a knapsack over strips
(Gilmore & Gomory 1965). Of the pieces of one width a strip has no more than are needed; a strip may repeat. Sizes are
rounded down on both axes, so that whatever fits a sheet fits the table. All in whole numbers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.knapsack import Knapsack, Whole, binary_split
from generator.calculators.cutting.sheets.job import SheetJob
from generator.calculators.cutting.sheets.table import Index, normal_points

#: Of more ways to lie than this it is not looked at which heights only single pieces have.
MOST_SINGLE = 100

#: Cells that are compared in one unit of work, and units for each comparison of a whole table. Measured, no source.
CELLS, COMPARED = 60, 40


class ColumnWidth:
    """The pieces that may lie in a column of one width (sizes in grains), the highest first."""

    def __init__(self, wide: int, ways: Sequence[tuple[int, int]], demands: Sequence[int]) -> None:
        self.wide = wide
        self.heights, self.pieces = zip(*sorted(ways, reverse=True), strict=True)
        self.counts = [demands[piece] for piece in self.pieces]
        self.number = sum(self.counts)

    def fill(self, duals: Sequence[int], times: int, room: int) -> None:
        """What columns of this width hold together in any height up to that of `times` columns in the room."""
        reach = sum(high * count for high, count in zip(self.heights, self.counts, strict=True))
        self.knapsack = Knapsack(self.heights, self.counts, min(reach, max(1, times) * room))
        self.values = [duals[piece] for piece in self.pieces]
        self.worth = self.knapsack.table(self.values)

    def most(self, times: int, heights: Index) -> Whole:
        """The most worth of so many columns in strips of each height."""
        end = len(self.worth) - 1
        together = self.worth[np.minimum(times * heights, end)]
        return together if times == 1 else np.minimum(times * self.worth[np.minimum(heights, end)], together)

    def pieces_of(self, times: int, height: int, real: bool) -> list[int]:
        """How many of each piece columns of that worth hold; `real` ones, of less worth, can be cut."""
        end = len(self.worth) - 1
        one, together = min(height, end), min(times * height, end)
        if not real or times == 1:
            repeated = times * int(self.worth[one]) <= int(self.worth[together])
            pattern = self.knapsack.pattern(one if repeated else together)
            return [count * (times if repeated else 1) for count in pattern]
        found = [count * times for count in self.knapsack.pattern(one)]
        if all(count <= demand for count, demand in zip(found, self.counts, strict=True)):
            return found
        found, left = [0] * len(self.pieces), list(self.counts)
        for _ in range(times):
            column = Knapsack(self.heights, left, one)
            column.table(self.values)
            pattern = column.pattern(one)
            found = [so_far + count for so_far, count in zip(found, pattern, strict=True)]
            left = [rest - count for rest, count in zip(left, pattern, strict=True)]
        return found


class StripChoice(NamedTuple):
    """`times` strips (their place among the heights), and at which levels from the `first` they are worth it."""

    height: int
    value: int
    place: int
    times: int
    first: int
    better: npt.NDArray[np.bool_]


class FilledSheet(NamedTuple):
    """The most worth up to each level of a sheet whose strips end at a column, and the strips."""

    column: int
    best: Whole
    strips: list[StripChoice]


def _strips_of(heights: Sequence[int], rows: Sequence[Sequence[tuple[int, int]]], highest: int) -> list[int]:
    """How many strips of each height there may be: of one that no stack has, as many as there are pieces so high."""
    if sum(map(len, rows)) > MOST_SINGLE:
        return [highest] * len(heights)
    single: Counter[int] = Counter()
    for row in rows:
        for high, count in row:
            single[high] += count
    stacked = {
        high + int(rest)
        for row in rows
        for high, count in row
        for rest in normal_points([(each, n - (each == high)) for each, n in row], highest)[1:]
    }
    return [highest if height in stacked else single[height] for height in heights]


class LyingTable:
    """Sheets whose strips lie across, or stand where `upright`. `grains`: of the axis along a strip and the other."""

    def __init__(self, job: SheetJob, upright: bool, grains: tuple[int, int]) -> None:
        self.job, self.upright, self.grains = job, upright, grains
        along, over = grains
        sheets = [sheet[::-1] if upright else sheet for sheet in job.sheets]
        self.rooms = [(wide // along, high // over) for wide, high in sheets]
        self.longest, self.highest = (max(room[axis] for room in self.rooms) for axis in (0, 1))
        by_width: dict[int, list[tuple[int, int]]] = {}
        self.lost: set[int] = set()
        for piece in range(len(job.pieces)):
            for wide, high, _ in job.ways(piece):
                side = (high // along, wide // over) if upright else (wide // along, high // over)
                if min(side) == 0:
                    self.lost.add(piece)
                elif side[0] <= self.longest and side[1] <= self.highest:
                    by_width.setdefault(side[0], []).append((side[1], piece))
        self.widths = [
            ColumnWidth(wide, by_width[wide], job.demands) for wide in sorted(by_width, reverse=True)
        ]
        self.times = [min(self.longest // own.wide, own.number) for own in self.widths]
        self.points = normal_points(
            [(own.wide, own.number) for own in self.widths], self.longest
        )  # along a strip
        rows = [list(zip(own.heights, own.counts, strict=True)) for own in self.widths]
        stacks = [normal_points(row, self.highest) for row in rows]
        self.heights = np.unique(np.concatenate([np.zeros(1, dtype=np.intp), *stacks]))[1:]
        self._most_strips = _strips_of(self.heights.tolist(), rows, self.highest)
        single = [(high, count) for row in rows for high, count in row]
        self.levels = normal_points(single, self.highest)  # where strips lie one over the other
        self._floor, self._level = (
            np.searchsorted(points, np.arange(end + 1), side="right") - 1
            for points, end in ((self.points, self.longest), (self.levels, self.highest))
        )
        self.steps: list[Whole] = []
        self.sheets: list[FilledSheet] = []

    def column(self, lengths: Whole) -> Index:
        """The last point along a strip that is not beyond each length."""
        return self._floor[lengths]

    def level(self, heights: Whole) -> Index:
        """The last level for strips that is not beyond each height."""
        return self._level[np.minimum(heights, self.highest)]

    @property
    def work(self) -> int:
        """Units of work that it takes to fill the table."""
        compared: int = sum(self.times)
        cells = compared * len(self.points) * len(self.heights)
        sheets: int = len(self.rooms) * len(self.heights) * (COMPARED + len(self.levels) // 50)
        return cells // CELLS + compared * COMPARED + sheets + self.highest * compared // 400

    @property
    def cells(self) -> int:
        """Numbers that are kept at once."""
        return (1 + len(self.widths)) * len(self.points) * len(self.heights)

    def fill(self, duals: Sequence[int]) -> None:
        """Work out all strips, and all sheets."""
        best = np.zeros((len(self.points), len(self.heights)), dtype=np.int64)
        self.steps = [best]
        for own, most in zip(self.widths, self.times, strict=True):
            own.fill(duals, most, self.highest)
            new = best.copy() if own.worth[-1] else best
            for times in range(1, most + 1 if own.worth[-1] else 0):
                first = int(np.searchsorted(self.points, times * own.wide))
                before = self._floor[self.points[first:] - times * own.wide]
                np.maximum(new[first:], best[before] + own.most(times, self.heights), out=new[first:])
            best = new
            self.steps.append(best)
        self.sheets = [self._sheet(int(self._floor[wide]), high) for wide, high in self.rooms]

    def _sheet(self, column: int, high: int) -> FilledSheet:
        """Strips one over the other, on one kind of sheet."""
        worth, strips, most = self.steps[-1][column], [], 0
        levels = self.levels[self.levels <= high]
        best = np.zeros(len(levels), dtype=np.int64)
        for place, height in enumerate(self.heights.tolist()):
            value = int(worth[place])
            if height > high or value <= most:  # a lower strip holds as much
                continue
            most = value
            for part in binary_split(min(high // height, self._most_strips[place])):
                first = int(np.searchsorted(levels, part * height))
                with_it = best[self._level[levels[first:] - part * height]] + part * value
                better = with_it > best[first:]
                strips.append(StripChoice(height, value, place, part, first, better))
                best[first:] = np.where(better, with_it, best[first:])
        return FilledSheet(column, best, strips)

    def most(self, stock: int) -> int:
        """The most worth on a sheet."""
        return int(self.sheets[stock].best[-1])

    def patterns(self, stock: int, number: int, real: bool) -> Iterator[tuple[int, ...]]:
        """Some sheets, the one of the most worth first: then the best of those with other strips.

        `real` ones can be cut and hold no more of a piece than is needed; they may be worth less.
        """
        sheet = self.sheets[stock]
        top = len(sheet.best) - 1
        high = int(self.rooms[stock][1])
        seen: set[int] = set()
        rest = [(sheet.best[self._level[high - each.height]] + each.value, each) for each in sheet.strips]
        ranked = sorted(rest, key=lambda pair: -int(pair[0]))
        for _, strip in [(sheet.best[top], None), *ranked]:
            if number == 0:
                return
            if strip is not None and strip.place in seen:
                continue
            number -= 1
            counts = [0] * len(self.job.pieces)
            below = top if strip is None else int(self._level[high - strip.height])
            for place in [] if strip is None else [strip.place]:
                seen.add(place)
                self._count(sheet.column, place, counts, real)
            for place in self._stacked(sheet, below):
                seen.add(place)
                self._count(sheet.column, place, counts, real)
            yield tuple(map(min, counts, self.job.demands)) if real else tuple(counts)

    def _stacked(self, sheet: FilledSheet, level: int) -> Iterator[int]:
        """The strips of the most worth up to a level."""
        for choice in reversed(sheet.strips):
            if level >= choice.first and choice.better[level - choice.first]:
                yield from [choice.place] * choice.times
                level = int(self._level[self.levels[level] - choice.times * choice.height])

    def _count(self, column: int, strip: int, counts: list[int], real: bool) -> None:
        """Count the pieces of the most worth in a strip."""
        height = int(self.heights[strip])
        for place in range(len(self.widths) - 1, -1, -1):
            own, worth = self.widths[place], self.steps[place + 1][column, strip]
            if self.steps[place][column, strip] == worth:
                continue
            held = min(self.times[place], int(self.points[column]) // own.wide)
            for times in range(1, held + 1):
                before = int(self._floor[self.points[column] - times * own.wide])
                value = own.most(times, self.heights[strip : strip + 1])[0]
                if self.steps[place][before, strip] + value == worth:
                    break
            column = before
            for piece, count in zip(own.pieces, own.pieces_of(times, height, real), strict=True):
                counts[piece] += count


class StripTable:
    """Both ways to lay the strips of a job; `grains` are those of the axes across and up."""

    def __init__(self, job: SheetJob, grains: tuple[int, int]) -> None:
        self.ways = (LyingTable(job, False, grains), LyingTable(job, True, grains[::-1]))
        self.lost = self.ways[0].lost | self.ways[1].lost
        self.exact = grains == (1, 1)
        self.work = sum(way.work for way in self.ways)
        self.cells = sum(way.cells for way in self.ways)

    def fill(self, duals: Sequence[int], budget: WorkBudget) -> None:
        """Work out what all sheets hold for these duals."""
        budget.spend(self.work)
        for way in self.ways:
            way.fill(duals)

    def most(self, stock: int) -> int:
        """The most worth on a sheet of a stock."""
        return max(way.most(stock) for way in self.ways)
