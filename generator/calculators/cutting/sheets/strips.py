"""Sheets as a panel saw cuts them: strips off the sheet, columns off a strip, pieces off a column; three stages.

A strip is filled exactly, as a bar is, by a knapsack over its columns; strips are stacked while they hold much for
their height. All sizes are those of a job: with the kerf, in whole steps.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.knapsack import binary_split
from generator.calculators.cutting.sheets.job import Layout, Leaf, SheetJob, in_row

#: Cells of a strip's length at most, in the knapsack of its columns.
CELLS = 2_500

#: Heights of strips that are tried for one place.
HEIGHTS = 7

#: Pieces of one width can be paired, one over the other in a strip: this many of each width are looked at.
PAIRED = 5

#: Of more ways to lay pieces, some are looked at for each strip, and fewer heights.
MOST_WAYS, FEWER_HEIGHTS = 60, 4


class LyingWay(NamedTuple):
    """A piece as it lies along a strip."""

    piece: int
    width: int
    height: int
    turned: bool


class FilledColumn(NamedTuple):
    """Ways of one width, one over the other."""

    width: int
    stack: tuple[LyingWay, ...]


class FilledStrip(NamedTuple):
    """Columns side by side."""

    height: int
    columns: tuple[FilledColumn, ...]


class StripSheet(NamedTuple):
    """Strips one over the other; `upright` ones are side by side instead."""

    stock: int
    upright: bool
    strips: tuple[FilledStrip, ...]

    def counts(self, pieces: int) -> tuple[int, ...]:
        """How many of each piece the sheet holds."""
        counts = [0] * pieces
        for strip in self.strips:
            for column in strip.columns:
                for way in column.stack:
                    counts[way.piece] += 1
        return tuple(counts)

    def without(self, surplus: list[int]) -> StripSheet:
        """The sheet without `surplus` pieces; counts the surplus down.

        Whole strips go first, then whole columns, so that what stays needs no cut for their sake.
        """
        strips = [
            strip
            for strip in self.strips
            if not _all_surplus([way for column in strip.columns for way in column.stack], surplus)
        ]
        return self._replace(strips=tuple(filter(None, (_shorter(strip, surplus) for strip in strips))))


def _shorter(strip: FilledStrip, surplus: list[int]) -> FilledStrip | None:
    """The strip without surplus columns and pieces; None without any piece."""
    columns = []
    for column in [column for column in strip.columns if not _all_surplus(column.stack, surplus)]:
        stack = tuple(way for way in column.stack if not _all_surplus([way], surplus))
        if stack:
            columns.append(FilledColumn(column.width, stack))
    return FilledStrip(strip.height, tuple(columns)) if columns else None


def _all_surplus(ways: Sequence[LyingWay], surplus: list[int]) -> bool:
    """Whether all of these are surplus; if so they are counted down."""
    counts = Counter(way.piece for way in ways)
    if any(surplus[piece] < count for piece, count in counts.items()):
        return False
    for piece, count in counts.items():
        surplus[piece] -= count
    return True


class StripFill:
    """Fills sheets of one job. `chance` gives numbers from 0 to 1."""

    def __init__(self, job: SheetJob, chance: Callable[[], float], budget: WorkBudget) -> None:
        self.job, self.chance, self.budget = job, chance, budget
        self.rule = job.rule
        self._ways: list[list[LyingWay]] = [
            [
                LyingWay(piece, high, wide, turned) if upright else LyingWay(piece, wide, high, turned)
                for piece in range(len(job.pieces))
                for wide, high, turned in sorted(job.ways(piece), key=lambda way: -way[1])
            ]
            for upright in (False, True)
        ]

    def sheet(self, stock: int, upright: bool, left: Sequence[int], values: Sequence[float]) -> StripSheet:
        """One sheet, strip after strip, for much value."""
        width, height = self.job.sheets[stock][:: -1 if upright else 1]
        left, room = list(left), height
        strips: list[FilledStrip] = []
        while True:
            ways = [way for way in self._ways[upright] if left[way.piece] and way.width <= width]
            if len(ways) > MOST_WAYS:
                every = -(-len(ways) // MOST_WAYS)
                ways = ways[int(self.chance() * every) :: every]
            heights = HEIGHTS if len(ways) < MOST_WAYS else FEWER_HEIGHTS
            best: tuple[float, FilledStrip] | None = None
            most = room - self.rule.gap
            for high in self._heights(ways, most, left, heights):
                value, strip = self._strip(ways, high, width, left, values)
                # near the end what counts is how well the strip fills all that is left
                over = room if room - high < high else high
                merit = value / over * (0.93 + 0.07 * self.chance())
                if strip.columns and (best is None or merit > best[0]):
                    best = merit, strip
            used = [strip.height for strip in strips]
            if best is None or not self.rule.fed(width, height, [*used, best[1].height]):
                return StripSheet(stock, upright, tuple(strips))
            strips.append(best[1])
            room -= best[1].height
            for column in best[1].columns:
                for way in column.stack:
                    left[way.piece] -= 1

    def layout(self, sheet: StripSheet) -> Layout:
        """The cuts of a sheet."""
        width, height = self.job.sheets[sheet.stock][:: -1 if sheet.upright else 1]

        def row(across: int, room: int, level: bool, parts: Sequence[tuple[int, Layout]]) -> Layout:
            order = self.rule.in_order(across, room, [size for size, _ in parts])
            size = (across, room) if level is not sheet.upright else (room, across)
            return in_row(*size, level is sheet.upright, [parts[place][1] for place in order])

        strips = []
        for strip in self._whole(sheet, height):
            columns = []
            for column in strip.columns:
                stack = [(way.height, self._leaf(way, sheet.upright)) for way in column.stack]
                columns.append((column.width, row(column.width, strip.height, True, stack)))
            strips.append((strip.height, row(strip.height, width, False, columns)))
        return row(width, height, True, strips)

    def _whole(self, sheet: StripSheet, height: int) -> Sequence[FilledStrip]:
        """The strips; a single one that would leave no off-cut of use has no cut of its own."""
        strips = sheet.strips
        alone = len(strips) == 1 and height - strips[0].height - self.rule.kerf < min(self.job.keep)
        filled = any(
            len(column.stack) == 1 and column.stack[0].height == strip.height
            for strip in strips
            for column in strip.columns
        )
        return [strips[0]._replace(height=height)] if alone and not filled else strips

    def by_rule(self, sheet: StripSheet) -> StripSheet | None:
        """The sheet within the operator's rules, its strips as high as they must be; None where it has no room."""
        width, height = self.job.sheets[sheet.stock][:: -1 if sheet.upright else 1]
        strips = [
            strip._replace(height=self._lowered(height + 1, width, strip.columns)) for strip in sheet.strips
        ]
        for strip in strips:
            wides = [column.width for column in strip.columns]
            if strip.height > height or (wides != [width] and sum(wides) > width - self.rule.gap):
                return None
        highs = [strip.height for strip in strips]
        within = highs == [height] or sum(highs) <= height - self.rule.gap
        return (
            sheet._replace(strips=tuple(strips)) if within and self.rule.fed(width, height, highs) else None
        )

    @staticmethod
    def _leaf(way: LyingWay, upright: bool) -> Leaf:
        size = (way.height, way.width) if upright else (way.width, way.height)
        return Leaf(*size, way.piece, way.turned)

    def _strip(
        self, ways: Sequence[LyingWay], height: int, width: int, left: Sequence[int], values: Sequence[float]
    ) -> tuple[float, FilledStrip]:
        """A strip of a height, filled for the most value, and that value."""
        columns = self._columns(ways, height, width, left, values)
        step = max(1, -(-width // CELLS))
        cells = (width - self.rule.gap) // step
        best = np.zeros(cells + 1)
        taken = []
        for column, value, times in columns:
            for part in binary_split(times):
                size = part * column.width // step
                if size > cells:
                    break
                with_it = best[: cells + 1 - size] + part * value
                better = with_it > best[size:]
                taken.append((column, part, size, better))
                best[size:] = np.where(better, with_it, best[size:])
        self.budget.spend(150 + len(taken) * (24 + cells // 120) + len(columns) * 40)
        # sizes are rounded down: what is a step too long in all is found a little below
        end, kerf, feed = cells, self.rule.kerf, self.rule.feed
        while True:
            found, at = [], end
            for column, part, size, better in reversed(taken):
                if at >= size and better[at - size]:
                    found += [column] * part
                    at -= size
            self.budget.spend(20 + len(taken))
            most = width - self.rule.gap
            if found and height - kerf < feed:
                most = min(most, width + max(column.width for column in found) - kerf - feed)
            if not found or sum(column.width for column in found) <= most:
                break
            end = max(0, min(end - 1, most // step))
        return self._held(height, width, found, left, values)

    def _held(
        self,
        height: int,
        width: int,
        columns: Sequence[FilledColumn],
        left: Sequence[int],
        values: Sequence[float],
    ) -> tuple[float, FilledStrip]:
        """The columns without pieces of which too many are in them: one that turns may be in two."""
        rest, value, kept = dict(enumerate(left)), 0.0, []
        for column in columns:
            stack = []
            for way in column.stack:
                if rest[way.piece] > 0:
                    rest[way.piece] -= 1
                    value += values[way.piece]
                    stack.append(way)
            if stack:
                kept.append(FilledColumn(column.width, tuple(stack)))
        return value, FilledStrip(self._lowered(height, width, kept), tuple(kept))

    def _lowered(self, height: int, width: int, columns: Sequence[FilledColumn]) -> int:
        """The least height that holds the columns: of a piece that fills it, or of a stack with its last cut."""
        gap = self.rule.gap
        stacks = [[way.height for way in column.stack] for column in columns]
        for lower in sorted({sum(stack) + (gap if len(stack) > 1 else 0) for stack in stacks}):
            holds = all(stack == [lower] or sum(stack) <= lower - gap for stack in stacks) and lower < height
            fed = holds and self.rule.fed(lower, width, [column.width for column in columns])
            if fed and all(
                self.rule.fed(column.width, lower, stack)
                for column, stack in zip(columns, stacks, strict=True)
            ):
                return lower
        return height

    def _columns(
        self, ways: Sequence[LyingWay], height: int, width: int, left: Sequence[int], values: Sequence[float]
    ) -> list[tuple[FilledColumn, float, int]]:
        """Columns that a strip may hold, the value of each and how often it may be there."""
        low = height - self.rule.gap if self.job.stages != 2 else 0
        by_width: dict[int, list[LyingWay]] = defaultdict(list)
        for way in ways:
            if way.height == height or way.height <= low:
                by_width[way.width].append(way)
        found = []
        for wide, own in by_width.items():
            own.sort(key=lambda way: -way.height)
            rest = {way.piece: left[way.piece] for way in own}
            room = width // wide
            while room > 0:
                stack = self._stack(own, wide, height, low, rest, values)
                if not stack:
                    break
                if len(stack) == 1:
                    piece = stack[0].piece
                    times = min(room, rest[piece])
                    rest[piece] -= times
                    room -= times
                    found.append((FilledColumn(wide, (stack[0],)), values[piece], times))
                    continue
                held: dict[int, int] = defaultdict(int)
                for way in stack:
                    held[way.piece] += 1
                times = min(room, *(rest[piece] // count for piece, count in held.items()))
                for piece, count in held.items():
                    rest[piece] -= times * count
                room -= times
                value = sum(values[way.piece] for way in stack)
                found.append((FilledColumn(wide, tuple(stack)), value, times))
        return found

    def _stack(
        self,
        own: Sequence[LyingWay],
        wide: int,
        height: int,
        low: int,
        left: dict[int, int],
        values: Sequence[float],
    ) -> list[LyingWay]:
        """Pieces of one width in a column: the most valuable of those that begin with each of them."""
        best: tuple[float, list[LyingWay]] = (0.0, [])
        lowest = own[-1].height
        for first in own:
            if not left[first.piece]:
                continue
            stack = [first]
            if first.height < height:
                room = low - first.height
                if room >= lowest:
                    stack += self._above(own, room, {**left, first.piece: left[first.piece] - 1})
                while stack and not self.rule.fed(wide, height, [way.height for way in stack]):
                    stack.pop()  # fewer leave more to hold at the last cut
            value = sum([values[way.piece] for way in stack])
            if value > best[0]:
                best = value, stack
        return best[1]

    @staticmethod
    def _above(own: Sequence[LyingWay], room: int, left: dict[int, int]) -> list[LyingWay]:
        """The highest that fit, one after the other."""
        stack: list[LyingWay] = []
        for way in own:
            count = min(left[way.piece], room // way.height)
            if count > 0:
                stack += [way] * count
                left[way.piece] -= count
                room -= count * way.height
        return stack

    def _heights(self, ways: Sequence[LyingWay], most: int, left: Sequence[int], number: int) -> list[int]:
        """Some heights for the next strip, the largest always among them."""
        heights = {way.height for way in ways if way.height <= most}
        by_width: dict[int, list[LyingWay]] = defaultdict(list)
        for way in ways:
            if len(by_width[way.width]) < PAIRED:
                by_width[way.width].append(way)
        for own in by_width.values():
            for place, one in enumerate(own):
                for two in own[place:]:
                    both = one.height + two.height + self.rule.gap
                    if both <= most and (one is not two or left[one.piece] > 1):
                        heights.add(both)
        found = sorted(heights, reverse=True)
        if len(found) > number:
            found[1:] = [found[1 + int(self.chance() * (len(found) - 1))] for _ in range(number - 1)]
        return list(dict.fromkeys(found))
