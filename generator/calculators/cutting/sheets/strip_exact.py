"""Is there a plan in three stages of at most a wished cost? All sheets that it could use are enumerated and combined.

Pieces of one width are stacked to columns, columns put side by side to strips, strips one over the other to sheets.
What is built is kept while its worth and the most that can still be around it (from the table) reach what a sheet must
hold in a cheaper plan. Sizes are true, so that every sheet found can be cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.bounds import Duals, cost_above
from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import BarJob, Cut
from generator.calculators.cutting.core.patterns import needs_for_cost
from generator.calculators.cutting.core.whole_program import Outcome
from generator.calculators.cutting.sheets.blocks import Numbers, Packing
from generator.calculators.cutting.sheets.bounds import SheetBound
from generator.calculators.cutting.sheets.choice import settled_by
from generator.calculators.cutting.sheets.job import SheetJob
from generator.calculators.cutting.sheets.part_rows import (
    NEVER,
    Parts,
    Rows,
    TooManyError,
    build_rows,
    shortest,
)
from generator.calculators.cutting.sheets.strip_bound import measured
from generator.calculators.cutting.sheets.strip_table import ColumnWidth, LyingTable, StripTable
from generator.calculators.cutting.sheets.strips import FilledColumn, FilledStrip, LyingWay, StripSheet

#: Sheets that are combined at once.
MOST_SHEETS = 4_000

#: With more parts than a few, the share of a sheet that a plan may waste, so that its sheets are few enough.
MOST_WASTED, FEW = 0.12, 40

#: Strips, and sheets, that are begun at most.
MOST_ROWS = 100_000

#: Sets of sheets of one cost at most.
MOST_SETS = 2_000

#: Columns of one width at most, and units of work for each that is tried.
MOST_COLUMNS, TRIED = 3_000, 8


class SheetEnumeration:
    """All sheets of one stock, with strips lying one way, that hold at least `need` by a filled table."""

    def __init__(
        self, job: SheetJob, way: LyingTable, stock: int, need: int, most: int, budget: WorkBudget
    ) -> None:
        self.job, self.way, self.stock, self.need = job, way, stock, need
        self.most, self.budget = most, budget
        self.packing = Packing(job.demands)
        self.room = job.sheets[stock][:: -1 if way.upright else 1]
        self.along, self.high = way.rooms[stock]
        self.best = way.sheets[stock].best
        fits = way.heights <= self.high
        rest = np.where(fits, self.best[way.level(np.maximum(0, self.high - way.heights))], NEVER)
        self.over = rest.astype(np.int64)  # around a strip of each height

    def run(self) -> Iterator[tuple[tuple[int, ...], StripSheet]]:
        """What each sheet holds, and the sheet."""
        stacks: list[tuple[int, int, int, int, tuple[LyingWay, ...]]] = []
        for own in self.way.widths:
            stacks += self._columns(own)
        stacks.sort(key=lambda stack: (-stack[1], stack[0]))
        if not stacks:
            return
        columns = self._parts([(each[4][0].width, each[2], each[4]) for each in stacks])
        heights = np.array([each[1] for each in stacks], dtype=np.int64)
        # of columns that are no higher some may be higher at the table's grain, but not than the rounded height
        low = np.searchsorted(self.way.heights, [each[3] for each in stacks])
        top = np.searchsorted(self.way.heights, heights // self.way.grains[1], side="right") - 1
        columns.group = np.arange(len(columns))
        steps = self.way.steps[-1]

        def more(coarse: Numbers, group: Numbers) -> Numbers:
            beside = steps[self.way.column(np.maximum(0, self.along - coarse)), top[group]]
            return np.where(coarse <= self.along, beside + self.over[low[group]], NEVER)

        rows, found, strips = build_rows(
            columns,
            self.room[0],
            self.need,
            more,
            lambda _, group: self.over[low[group]],
            self.packing,
            self.most,
            self.budget,
        )
        if found:
            yield from self._stacked(strips, found, rows, stacks, heights, low)

    def _stacked(
        self,
        strips: Parts,
        found: Sequence[int],
        rows: Rows,
        stacks: Sequence[tuple[int, int, int, int, tuple[LyingWay, ...]]],
        heights: Numbers,
        low: npt.NDArray[np.intp],
    ) -> Iterator[tuple[tuple[int, ...], StripSheet]]:
        """Strips one over the other."""
        tall = heights[strips.group]
        order = np.argsort(-tall, kind="stable")
        lying = strips.take(order)
        lying.coarse = self.way.heights[low[lying.group]].astype(np.int64)
        lying.size = tall[order]
        lying.group = np.zeros(len(lying), dtype=np.int64)
        best = np.sort(shortest(lying))
        lying, order = lying.take(best), order[best]

        def above(coarse: Numbers, _: Numbers) -> Numbers:
            rest = self.best[self.way.level(np.maximum(0, self.high - coarse))]
            return np.where(coarse <= self.high, rest, NEVER)

        sheets, full, whole = build_rows(
            lying,
            self.room[1],
            self.need,
            above,
            lambda coarse, _: np.zeros_like(coarse),
            self.packing,
            self.most,
            self.budget,
        )
        for place, key in zip(full, whole.key.tolist(), strict=True):
            yield (
                self.packing.counts(key),
                self._sheet(sheets.members(place), order, found, rows, stacks, heights),
            )

    def _sheet(
        self,
        strips: Sequence[int],
        order: npt.NDArray[np.intp],
        found: Sequence[int],
        rows: Rows,
        stacks: Sequence[tuple[int, int, int, int, tuple[LyingWay, ...]]],
        heights: Numbers,
    ) -> StripSheet:
        made = []
        for strip in strips:
            members = rows.members(found[int(order[strip])])
            columns = [FilledColumn(stacks[each][4][0].width, stacks[each][4]) for each in members]
            made.append(FilledStrip(int(heights[members[0]]), tuple(columns)))
        return StripSheet(self.stock, self.way.upright, tuple(made))

    def _parts(self, columns: Sequence[tuple[int, int, tuple[LyingWay, ...]]]) -> Parts:
        singles = [self.packing.single(piece) for piece in range(len(self.job.pieces))]
        grain = self.way.grains[0]
        return Parts(
            np.array([wide for wide, _, _ in columns], dtype=np.int64),
            np.array([wide // grain for wide, _, _ in columns], dtype=np.int64),
            np.array(
                [
                    [sum(singles[way.piece][word] for way in stack) for word in range(self.packing.words)]
                    for _, _, stack in columns
                ],
                dtype=np.int64,
            ),
            np.array([worth for _, worth, _ in columns], dtype=np.int64),
            np.zeros(len(columns), dtype=np.int64),
        )

    def _columns(self, own: ColumnWidth) -> Iterator[tuple[int, int, int, int, tuple[LyingWay, ...]]]:
        """Columns of a width: true width and height, worth, height at the table's grain, and the ways."""
        if own.wide > self.along:
            return
        beside = self.way.steps[-1][self.way.column(np.array([self.along - own.wide]))[0]] + self.over
        ends = np.maximum.accumulate(beside[::-1])[::-1]
        heights, end = self.way.heights, len(own.worth) - 1
        ways = self._ways(own)
        known: dict[int, tuple[int, int]] = {}

        def around(coarse: int) -> tuple[int, int]:
            """The most worth beside a column that ends at a height, and of one to which more may come."""
            if coarse not in known:
                first = int(np.searchsorted(heights, coarse))
                if first == len(heights):
                    known[coarse] = NEVER, NEVER
                else:
                    rest = own.worth[np.minimum(heights[first:] - coarse, end)] + beside[first:]
                    known[coarse] = int(ends[first]), int(rest.max())
            return known[coarse]

        number = 0
        waiting: list[tuple[int, int, int, int, tuple[LyingWay, ...], int]] = [(0, 0, 0, 0, (), 0)]
        while waiting:
            first, coarse, high, worth, stack, repeated = waiting.pop()
            for place in range(first, len(ways)):
                way, small, value = ways[place]
                times = repeated + 1 if place == first and stack else 1
                if times > self.job.demands[way.piece] or high + way.height > self.room[1]:
                    continue
                if stack and way.width != stack[0].width:
                    continue
                self.budget.spend(TRIED)
                done, open_ = around(coarse + small)
                whole = worth + value
                if whole + open_ < self.need:
                    continue
                longer = (*stack, way)
                waiting.append((place, coarse + small, high + way.height, whole, longer, times))
                if whole + done >= self.need:
                    number += 1
                    yield way.width, high + way.height, whole, coarse + small, longer
            if number > MOST_COLUMNS or self.budget.spent:
                raise TooManyError

    def _ways(self, own: ColumnWidth) -> list[tuple[LyingWay, int, int]]:
        """Ways to lie in a column, the highest first, with their height at the table's grain, and worth."""
        worths = dict(zip(own.pieces, own.values, strict=True))
        along, over = self.way.grains
        found = []
        for piece in dict.fromkeys(own.pieces):
            for wide, high, turned in self.job.ways(piece):
                way = (
                    LyingWay(piece, high, wide, turned)
                    if self.way.upright
                    else LyingWay(piece, wide, high, turned)
                )
                if way.width // along == own.wide:
                    found.append((way, way.height // over, worths[piece]))
        return sorted(found, key=lambda each: (-each[0].width, -each[0].height, each[0].piece))


def enumerate_sheets(
    job: SheetJob, table: StripTable, needs: Sequence[int], most: int, budget: WorkBudget
) -> dict[Column, StripSheet] | None:
    """All sheets that hold what they must by a filled table; None when there are too many."""
    if table.lost:
        return None
    found: dict[Column, StripSheet] = {}
    try:
        for stock, limit in enumerate(job.limits):
            for way in table.ways if limit != 0 else ():
                for counts, sheet in SheetEnumeration(job, way, stock, needs[stock], most, budget).run():
                    found.setdefault((stock, counts), sheet)
                    if len(found) > most:
                        return None
    except TooManyError:
        return None
    return found


def settle(
    job: SheetJob, table: StripTable, bound: SheetBound, cost: int, budget: WorkBudget
) -> tuple[list[Cut], dict[Column, StripSheet]] | None:
    """Raise the bound cost by cost while no plan has it; a plan that has, with its sheets."""
    areas = job.areas
    while bound.cost < cost and bound.last is not None:
        # what proves most in parts of sheets is not always what proves most in whole ones
        tries = []
        for duals in (bound.last.duals, bound.proof.duals):
            if budget.left < 2 * table.work:
                return None
            table.fill(duals, budget)
            proof = measured(job, duals, table)
            needs = _needs(areas, proof, bound.cost)
            tries.append((max(_wasted(areas, proof, needs)), proof, needs))
        wasted, proof, needs = min(tries, key=lambda each: each[0])
        if wasted > MOST_WASTED and sum(job.demands) > FEW:
            return None
        if proof is tries[0][1]:
            table.fill(proof.duals, budget)
        sheets = enumerate_sheets(job, table, needs, MOST_ROWS, budget)
        if sheets is None or len(sheets) > MOST_SHEETS:
            return None
        outcome, cuts = settled_by(areas, sheets, bound.cost, budget)
        if cuts is not None:
            return cuts, sheets
        if outcome is not Outcome.NONE_EXISTS:
            return None
        bound.cost = cost_above(areas, proof, bound.cost, cost, budget)
    return None


def _wasted(areas: BarJob, proof: Duals, needs: Sequence[int]) -> list[float]:
    """How much of what each kind of sheet in any number holds at most it may do without."""
    return [
        1 - need / most if most and limit is None and need <= most else 0.0
        for most, need, limit in zip(proof.most, needs, areas.limits, strict=True)
    ]


def _needs(areas: BarJob, proof: Duals, target: int) -> Sequence[int]:
    """What a sheet must hold at least in a plan of exactly the target: the least over all sets of that cost."""
    sets: list[tuple[int, ...]] = []
    waiting: list[tuple[tuple[int, ...], int]] = [((), target)]
    while waiting:
        counts, rest = waiting.pop()
        stock = len(counts)
        if stock == len(areas.prices):
            if rest == 0:
                sets.append(counts)
            continue
        price, limit = areas.prices[stock], areas.limits[stock]
        most = rest // price if price else limit or 0
        waiting += [
            ((*counts, number), rest - number * price)
            for number in range((most if limit is None else min(most, limit)) + 1)
        ]
        if len(waiting) + len(sets) > MOST_SETS:
            return needs_for_cost(areas, proof, target)
    needs = [max(proof.most) + 1] * len(areas.prices)
    for counts in sets:
        wasted = sum(most * count for most, count in zip(proof.most, counts, strict=True)) - proof.need
        for stock, count in enumerate(counts):
            if count and wasted >= 0:
                needs[stock] = min(needs[stock], proof.most[stock] - wasted)
    return needs
