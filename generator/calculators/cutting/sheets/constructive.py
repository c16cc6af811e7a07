"""Sheets laid by rule within what a saw can do: with limited changes of direction, no part too long for the fence.

Pieces are laid one by one in the free rectangle that fits best; each free rectangle remembers in which direction it
was cut off and how many changes of direction that took. A sheet that is longer than the saw takes is first divided
into sections. The orders of the pieces are tried in turn and then changed at random (from a fixed seed), and the
sheets of all tries are combined anew (Monaci & Toth 2006).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column, choose
from generator.calculators.cutting.core.job import trimmed_to_demand
from generator.calculators.cutting.sheets.job import (
    Layout,
    Leaf,
    Sheet,
    SheetCut,
    SheetJob,
    cost_of,
    counts_of,
    split,
    tidied,
    without,
)

#: Orders that are tried before the sheets are combined, at most.
TRIES = 400

#: The most parts that a sheet is broken down into.
MOST_SECTIONS = 40

#: Once the budget is spent, this many free rectangles are kept, the largest ones.
FEW = 40

#: More changes of direction than any layout has, where the saw sets no limit.
ANY_RUNS = 1_000


@dataclass
class FreeRect:
    """A rectangle: free, a piece, or cut in two. `runs` changes of direction made it, the last cut `upright`."""

    width: int
    height: int
    upright: bool | None = None
    runs: int = 0
    piece: int = -1
    turned: bool = False
    at: int = 0
    cut_upright: bool = False
    parts: tuple[FreeRect, FreeRect] | None = None

    def layout(self) -> Layout:
        """The rectangle with all that was cut in it."""
        if self.parts is None:
            return Leaf(self.width, self.height, self.piece, self.turned)
        first, second = (part.layout() for part in self.parts)
        return split(self.width, self.height, self.cut_upright, self.at, first, second)

    def divide(self, upright: bool, at: int, gap: int) -> tuple[FreeRect, FreeRect]:
        """Cut the rectangle in two, the second part `gap` behind the first."""
        runs = self.runs + (self.upright is not upright)
        rest = max(0, (self.width if upright else self.height) - at - gap)
        first, second = (
            FreeRect(*((size, self.height) if upright else (self.width, size)), upright, runs)
            for size in (at, rest)
        )
        self.cut_upright, self.at, self.parts = upright, at, (first, second)
        return first, second


@dataclass(frozen=True)
class Placement:
    """A piece in a free rectangle; cut upright first, or level first."""

    sheet: int
    room: FreeRect
    wide: int
    high: int
    turned: bool
    upright: bool


class ConstructiveHeuristic:
    """Lays the pieces of a job in many orders."""

    def __init__(self, job: SheetJob, budget: WorkBudget) -> None:
        self.job, self.budget = job, budget
        self.limit = ANY_RUNS if job.stages is None else job.stages
        self.areas = job.areas
        self.known: dict[Column, Layout] = {}
        self._columns: dict[Column, Column] = {}
        areas = self.areas.capacities
        usable = [stock for stock, area in enumerate(areas) if area > 0]
        # what is on hand for nothing comes first
        self._stocks = sorted(usable, key=lambda stock: (job.prices[stock] / areas[stock], areas[stock]))

    def rough(self) -> tuple[SheetCut, ...] | None:
        """A plan by the first order that finds room, with no more work than it takes to lay each piece once."""
        laid = self._rough()
        return None if laid is None else self._cuts(laid)

    def rough_sheets(self) -> list[Sheet] | None:
        """The same plan as its layouts are, sheet by sheet."""
        laid = self._rough()
        return None if laid is None else [(column[0], self.known[column]) for column in laid]

    def _rough(self) -> list[Column] | None:
        return self._lay([piece for piece, count in enumerate(self.job.demands) for _ in range(count)], 0)

    def run(self, bound: int) -> tuple[SheetCut, ...] | None:
        """The cheapest plan of all orders and of their sheets combined; None when no order finds room."""
        best: list[Column] | None = None
        order = [piece for piece, count in enumerate(self.job.demands) for _ in range(count)]
        noise = np.random.default_rng(1)
        kept = order
        for number in range(TRIES):
            if best is None:
                # The orders by rule are tried in any case: without a plan the work was for nothing.
                if self.budget.spent and self._first(order, number) is None:
                    break
            elif self.budget.spent or self._cost(best) <= bound:
                break
            trial = self._first(order, number) or self._changed(kept, noise)
            laid = self._lay(trial, number)
            if laid is not None and (best is None or self._cost(laid) <= self._cost(best)):
                best, kept = laid, trial
        combined = self._combined(bound, None if best is None else self._cost(best))
        if combined is not None and (best is None or cost_of(self.job, combined) < self._cost(best)):
            return combined
        return None if best is None else self._cuts(best)

    def _cuts(self, laid: Sequence[Column]) -> tuple[SheetCut, ...]:
        return tuple(
            SheetCut(stock, self._tidy(self.known[stock, counts]), counts, times)
            for (stock, counts), times in Counter(laid).items()
        )

    def _cost(self, laid: Sequence[Column]) -> int:
        return sum(self.job.prices[stock] for stock, _ in laid)

    def _first(self, order: list[int], number: int) -> list[int] | None:
        """The orders that come before any change: by area, height, width, girth, each for both first cuts."""
        size = self.job.pieces
        keys = (
            lambda piece: size[piece][0] * size[piece][1],
            lambda piece: (size[piece][1], size[piece][0]),
            lambda piece: (size[piece][0], size[piece][1]),
            lambda piece: sum(size[piece]),
        )
        return sorted(order, key=keys[number // 2], reverse=True) if number // 2 < len(keys) else None

    @staticmethod
    def _changed(order: list[int], noise: np.random.Generator) -> list[int]:
        """Some pieces at other places of the order."""
        changed = list(order)
        for _ in range(1 + int(noise.integers(3))):
            piece = changed.pop(int(noise.integers(len(changed))))
            changed.insert(int(noise.integers(len(changed) + 1)), piece)
        return changed

    def _lay(self, order: list[int], number: int) -> list[Column] | None:
        """Sheets for one order; None when the stock on hand does not hold the pieces in it."""
        job, wide_first = self.job, number % 2 == 0
        limits = list(job.limits)
        sheets: list[tuple[int, FreeRect]] = []
        free: list[tuple[int, FreeRect]] = []
        for piece in order:
            if self.budget.spent and len(free) > FEW:
                free = sorted(free, key=lambda entry: -entry[1].width * entry[1].height)[:FEW]
            place = self._best(piece, free, wide_first)
            if place is None:
                stock = self._new_sheet(piece, limits)
                if stock is None:
                    return None
                limit = limits[stock]
                limits[stock] = None if limit is None else limit - 1
                sheet = FreeRect(*job.sheets[stock])
                sheets.append((stock, sheet))
                sections = [(len(sheets) - 1, room) for room in self._sections(sheet, piece, number // 2 % 3)]
                free += sections
                place = self._best(piece, sections, wide_first)
                assert place is not None, "a piece that fits a sheet goes into its corner with two cuts"
            self._put(piece, place, free)
        laid = []
        for stock, room in sheets:
            layout = room.layout()
            column = (stock, counts_of(layout, len(job.pieces)))
            self.known.setdefault(column, layout)
            laid.append(self._columns.setdefault(column, column))
        return laid

    def _sections(self, sheet: FreeRect, piece: int, rule: int) -> list[FreeRect]:
        """The sheet, or what breaking it down across its longer side makes of it, the allowance taken off.

        The first section holds the piece. Each is an equal share, as long as the saw takes, or just as the piece.
        """
        longest, upright = self.job.longest, sheet.width >= sheet.height
        sections: list[FreeRect] = []
        rest = sheet
        needs = min(
            wide if upright else high
            for wide, high, _ in self.job.ways(piece)
            if wide <= sheet.width and high <= sheet.height
        )
        while longest is not None:
            length, allowance = (rest.width if upright else rest.height), self.job.allowance
            if length <= longest:
                break
            share = -(-length // -(-length // longest)) - allowance
            size = max(needs, (share, longest - allowance, needs or share)[rule])
            if size + allowance > longest:
                allowance = 0  # the piece itself is too long for the fence
            if size <= 0 or size + allowance >= length or len(sections) == MOST_SECTIONS:
                break
            near, rest = rest.divide(upright, size + allowance, self._gap(rest))
            sections.append(near.divide(upright, size, self._gap(near))[0] if allowance else near)
            needs = 0
        return [*sections, rest]

    def _gap(self, room: FreeRect) -> int:
        """By how much a cut through a part takes more than a piece has for its kerf: it goes by track saw or not."""
        long = self.job.longest is not None and max(room.width, room.height) > self.job.longest
        return self.job.wider if long else 0

    def _tidy(self, layout: Layout) -> Layout:
        """Tidied within the parts that go to the saw; the cuts that break the sheet down stay as they are."""
        longest = self.job.longest
        if longest is None or isinstance(layout, Leaf) or max(layout.width, layout.height) <= longest:
            return tidied(layout)
        return layout._replace(first=self._tidy(layout.first), second=self._tidy(layout.second))

    def _best(self, piece: int, free: Sequence[tuple[int, FreeRect]], wide_first: bool) -> Placement | None:
        """The free rectangle that the piece fills best, by its shorter rest."""
        ways = self.job.ways(piece)
        self.budget.spend(10 + 2 * len(free) * len(ways))
        best: tuple[tuple[int, int, int], Placement] | None = None
        closest = max(max(sheet) for sheet in self.job.sheets)
        for rank, (sheet, room) in enumerate(free):
            for wide, high, turned in ways:
                right, above = room.width - wide, room.height - high
                # nearly all are left out here, before anything is made of them
                if right < 0 or above < 0 or (right > closest and above > closest):
                    continue
                for upright in (True, False):
                    if self._runs(room, right, above, upright) > self.limit:
                        continue
                    merit = (min(right, above), max(right, above), 2 * rank + (upright is not wide_first))
                    if best is None or merit < best[0]:
                        best = merit, Placement(sheet, room, wide, high, turned, upright)
                        closest = merit[0]
        return None if best is None else best[1]

    @staticmethod
    def _runs(room: FreeRect, right: int, above: int, upright: bool) -> int:
        """Changes of direction when the piece's first cut is upright, or level."""
        directions = [each for each, rest in ((True, right), (False, above)) if rest]
        if not upright:
            directions.reverse()
        runs, last = room.runs, room.upright
        for each in directions:
            runs += last is not each
            last = each
        return runs

    def _put(self, piece: int, place: Placement, free: list[tuple[int, FreeRect]]) -> None:
        free[:] = [entry for entry in free if entry[1] is not place.room]
        room = place.room
        for upright in (place.upright, not place.upright):
            size, wish = (room.width, place.wide) if upright else (room.height, place.high)
            if wish < size:
                room, rest = room.divide(upright, wish, self._gap(room))
                free.append((place.sheet, rest))
        room.piece, room.turned = piece, place.turned

    def _new_sheet(self, piece: int, limits: Sequence[int | None]) -> int | None:
        """The cheapest sheet by its area that holds the piece."""
        ways = self.job.ways(piece)
        for stock in self._stocks:
            width, height = self.job.sheets[stock]
            if limits[stock] != 0 and any(wide <= width and high <= height for wide, high, _ in ways):
                return stock
        return None

    def _combined(self, bound: int, cost: int | None) -> tuple[SheetCut, ...] | None:
        """The cheapest choice among all sheets that were laid."""
        dearest = sum(self.job.prices) * sum(self.job.demands) if cost is None else cost - 1
        if not self.known or dearest < bound or self.budget.spent:
            return None
        _, cuts = choose(self.areas, list(self.known), dearest, self.budget, bound)
        if cuts is None:
            return None
        result = []
        for cut in trimmed_to_demand(self.areas, cuts):
            holding = [
                (sum(counts) - sum(cut.pattern), counts)
                for stock, counts in self.known
                if stock == cut.stock and all(a >= b for a, b in zip(counts, cut.pattern, strict=True))
            ]
            counts = min(holding)[1]
            surplus = [has - wants for has, wants in zip(counts, cut.pattern, strict=True)]
            layout = self._tidy(without(self.known[cut.stock, counts], surplus))
            result.append(SheetCut(cut.stock, layout, cut.pattern, cut.times))
        return tuple(result)
