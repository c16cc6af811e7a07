"""Ruin and recreate: parts of a plan are emptied and filled anew until all pieces fit sheets of a wished cost.

After the goal-driven search of Gardeyn & Wauters (European Journal of Operational Research 301, 2022): a plan within
the wished cost may leave pieces over, and their area is what must fall. A plan is kept while it is no worse than the
one some rounds ago (late acceptance, Burke & Bykov, same journal 258, 2017).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from operator import mul

import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.sheets.job import (
    Layout,
    Leaf,
    Sheet,
    SheetJob,
    counts_of,
    in_row,
    leaves,
    pieces_in,
    row,
    split,
)

#: How many rounds back a plan is compared with.
MEMORY = 15

#: How many sheets a round touches at most, and how often it takes one away whole.
TOUCHED, TAKEN_AWAY = 3, 0.25

#: How often a place that would be best is passed over, and at most the other cut made first.
PASSED_OVER, DARING = 0.03, 0.3

#: By how much at most a piece is taken for smaller than it is, in the order of sizes.
NOISE = 0.3

#: Units of work to keep a sheet that was filled. Measured.
SEEN = 20


class Gap:
    """A rectangle to be filled; `inside` is then a piece, or a cut (upright, where) with a hole on either side."""

    __slots__ = ("height", "inside", "width")

    def __init__(self, width: int, height: int) -> None:
        self.width = width
        self.height = height
        self.inside: Leaf | tuple[bool, int, Gap, Gap] | None = None

    def layout(self) -> Layout:
        """What the hole was filled with."""
        if self.inside is None:
            return Leaf(self.width, self.height)
        if isinstance(self.inside, Leaf):
            return self.inside
        upright, at, first, second = self.inside
        return split(self.width, self.height, upright, at, first.layout(), second.layout())

    def put(self, piece: Leaf, upright: bool) -> tuple[Gap, Gap]:
        """Put a piece in the corner; the holes that remain beside and above it, one of them perhaps without area."""
        wide, high = piece.width, piece.height
        core = Gap(wide, high)
        core.inside = piece
        if upright:
            strip, rest = Gap(wide, self.height), Gap(self.width - wide, self.height)
            end = Gap(wide, self.height - high)
            strip.inside, self.inside = (False, high, core, end), (True, wide, strip, rest)
        else:
            strip, rest = Gap(self.width, high), Gap(self.width, self.height - high)
            end = Gap(self.width - wide, high)
            strip.inside, self.inside = (True, wide, core, end), (False, high, strip, rest)
        return rest, end


@dataclass
class Opened:
    """A sheet that is worked on, with its holes in the order of `leaves`."""

    stock: int
    layout: Layout
    holes: list[Gap]

    def closed(self) -> Sheet:
        """The sheet with its holes filled."""
        return self.stock, _refilled(self.layout, iter(self.holes))


def _refilled(layout: Layout, holes: Iterator[Gap]) -> Layout:
    if isinstance(layout, Leaf):
        return layout if layout.piece >= 0 else next(holes).layout()
    first = _refilled(layout.first, holes)
    second = _refilled(layout.second, holes)
    return split(layout.width, layout.height, layout.upright, layout.at, first, second)


def hollowed(layout: Layout, number: int, least: int) -> Layout:
    """The layout without the piece of that number and what follows it in its row, about `least` pieces in all."""
    if isinstance(layout, Leaf):
        return Leaf(layout.width, layout.height)
    parts = row(layout, layout.upright)
    counts = [len(pieces_in(part)) for part in parts]
    place = 0
    while number >= counts[place]:
        number -= counts[place]
        place += 1
    if counts[place] >= least:
        parts[place] = hollowed(parts[place], number, least)
    else:
        while least > 0 and place < len(parts):
            least -= counts[place]
            parts[place] = Leaf(parts[place].width, parts[place].height)
            place += 1
    return in_row(layout.width, layout.height, layout.upright, parts)


def chances() -> Iterator[float]:
    """Numbers from 0 to 1, the same in every run and with every numpy: the raw stream is promised never to change."""
    stream = np.random.PCG64(1)
    while True:
        yield from ((raw >> 11) * 2.0**-53 for raw in stream.random_raw(1000).tolist())


class LocalSearch:
    """Reworks plans of one job. Its random numbers are the same in every run. `seen` are all sheets that it filled."""

    def __init__(self, job: SheetJob) -> None:
        self.job = job
        self.seen: dict[Column, Layout] = {}
        self._random = chances().__next__
        self._ways = [job.ways(piece) for piece in range(len(job.pieces))]
        self._areas = job.areas.lengths
        self._narrowest = min(way[0] for ways in self._ways for way in ways)
        self._lowest = min(way[1] for ways in self._ways for way in ways)

    def run(self, sheets: Sequence[Sheet], target: int, budget: WorkBudget) -> list[Sheet] | None:
        """A plan of at most `target`, from one that may be dearer; None when the budget is spent first."""
        now = self._within(sheets, target)
        left = list(self.job.demands)
        for _, layout in now:
            for piece in pieces_in(layout):
                left[piece] -= 1
        area = self._area(left)
        memory = [area] * MEMORY
        turn = 0
        while any(left):
            if budget.spent:
                return None
            trial, trial_left = self._changed(now, left, target, budget)
            new = self._area(trial_left)
            if new <= max(area, memory[turn]):
                now, left, area = trial, trial_left, new
            memory[turn] = area
            turn = (turn + 1) % MEMORY
        return now

    def _area(self, counts: Sequence[int]) -> int:
        return sum(map(mul, self._areas, counts))

    def _cost(self, stocks: Sequence[int]) -> int:
        return sum(map(self.job.prices.__getitem__, stocks))

    def _within(self, sheets: Sequence[Sheet], target: int) -> list[Sheet]:
        """The fullest sheets that the target pays."""
        pieces = len(self.job.pieces)
        kept: list[Sheet] = []
        for sheet in sorted(sheets, key=lambda sheet: -self._area(counts_of(sheet[1], pieces))):
            if self.job.prices[sheet[0]] <= target:
                target -= self.job.prices[sheet[0]]
                kept.append(sheet)
        return kept

    def _changed(
        self, sheets: Sequence[Sheet], left: Sequence[int], target: int, budget: WorkBudget
    ) -> tuple[list[Sheet], list[int]]:
        """Another plan: some sheets are emptied in part or taken away, then all pieces left over are tried."""
        kept, left = list(sheets), list(left)
        budget.spend(50 + len(sheets) // 3 + len(left) // 2)
        opened: list[Opened] = []
        for _ in range(min(len(kept), 1 + int(TOUCHED * self._random()))):
            place = int(self._random() * len(kept))
            stock, layout = kept[place]
            kept[place] = kept[-1]
            kept.pop()
            held = pieces_in(layout)
            budget.spend(20 * len(held) + 90)
            new: Layout = Leaf(*self.job.sheets[stock])
            if self._random() >= TAKEN_AWAY:
                least = 1 + int(self._random() * self._random() * len(held))
                new = hollowed(layout, int(self._random() * len(held)), least)
            for piece in held:
                left[piece] += 1
            if isinstance(new, Leaf):
                continue
            for piece in pieces_in(new):
                left[piece] -= 1
            opened.append(
                Opened(
                    stock,
                    new,
                    [Gap(leaf.width, leaf.height) for leaf, _, _ in leaves(new) if leaf.piece < 0],
                )
            )
        self._fill(opened, [stock for stock, _ in kept], left, target, budget)
        closed = [sheet.closed() for sheet in opened]
        for stock, layout in closed:
            counts = counts_of(layout, len(self.job.pieces))
            budget.spend(SEEN + sum(counts))
            self.seen.setdefault((stock, counts), layout)
        return kept + closed, left

    def _fill(
        self, opened: list[Opened], others: list[int], left: list[int], target: int, budget: WorkBudget
    ) -> None:
        """Put as many of the pieces left over as possible in holes, and on new sheets while the target pays them."""
        random = self._random
        in_use = others + [sheet.stock for sheet in opened]
        holes = [hole for sheet in opened for hole in sheet.holes if self._usable(hole)]
        rule, daring = int(3 * random()), DARING * random()
        for piece in self._order(left):
            if budget.spent:
                break
            budget.spend(18 + len(holes) * len(self._ways[piece]))
            found = self._best_hole(holes, piece, rule, PASSED_OVER)
            if found is None:
                budget.spend(len(self.job.sheets) // 2)
                stock = self._new_sheet(piece, in_use, target)
                if stock < 0:
                    continue
                in_use.append(stock)
                hole = Gap(*self.job.sheets[stock])
                opened.append(Opened(stock, Leaf(hole.width, hole.height), [hole]))
                holes.append(hole)
                found = self._best_hole(holes[-1:], piece, rule, 0.0)
                assert found is not None, "the sheet holds the piece"
                found = (len(holes) - 1, found[1])
            place, (wide, high, turned) = found
            hole = holes[place]
            holes[place] = holes[-1]
            holes.pop()
            left[piece] -= 1
            upright = self._direction(hole, wide, high, random() < daring)
            holes += filter(self._usable, hole.put(Leaf(wide, high, piece, turned), upright))

    def _order(self, left: Sequence[int]) -> list[int]:
        """The pieces left over, the large ones first, by one of four measures and not too strictly."""
        random = self._random
        measure, noise = int(4 * random()), NOISE * random()
        keyed = []
        for piece, count in enumerate(left):
            if count:
                wide, high = self.job.pieces[piece]
                size = (wide * high, max(wide, high) ** 2, wide * wide, high * high)[measure]
                keyed += [(size * (1 - noise * random()), piece) for _ in range(count)]
        keyed.sort(reverse=True)
        return [piece for _, piece in keyed]

    def _best_hole(
        self, holes: Sequence[Gap], piece: int, rule: int, passed_over: float
    ) -> tuple[int, tuple[int, int, bool]] | None:
        """The hole that fits best, and how the piece lies in it; by area, by the shorter or by the longer rest."""
        random = self._random
        best, least = None, -1
        for way in self._ways[piece]:
            wide, high, _ = way
            for place, hole in enumerate(holes):
                x, y = hole.width - wide, hole.height - high
                if x < 0 or y < 0:
                    continue
                if rule == 0:
                    score = hole.width * hole.height
                elif (x < y) is (rule == 1):
                    score = x
                else:
                    score = y
                if (best is not None and score >= least) or random() < passed_over:
                    continue
                best, least = (place, way), score
        return best

    def _direction(self, hole: Gap, wide: int, high: int, other: bool) -> bool:
        """Whether the upright cut is first: as leaves the largest rest whole, or the `other` way."""
        x, y = hole.width - wide, hole.height - high
        return (max(x * hole.height, wide * y) >= max(x * high, hole.width * y)) is not other

    def _usable(self, hole: Gap) -> bool:
        return hole.width >= self._narrowest and hole.height >= self._lowest

    def _new_sheet(self, piece: int, in_use: Sequence[int], target: int) -> int:
        """A stock that holds the piece and that the target pays, rather one with much area for its price; or -1."""
        job = self.job
        paid = target - self._cost(in_use)
        best, most = -1, 0.0
        for stock, (width, height) in enumerate(job.sheets):
            limit = job.limits[stock]
            if job.prices[stock] > paid or (limit is not None and in_use.count(stock) >= limit):
                continue
            if any(wide <= width and high <= height for wide, high, _ in self._ways[piece]):
                merit = width * height / max(1, job.prices[stock]) * (0.3 + self._random())
                if merit > most:
                    best, most = stock, merit
        return best
