"""Plans whose cuts change direction only so often, as a panel saw asks for.

A plan without that limit is made first: it may keep the limit as it is, and its bound holds for every plan. Else
pieces are laid one by one in the free rectangle that fits best; each free rectangle remembers in which direction it
was cut off and how many changes of direction that took. The orders of the pieces are tried in turn and then changed
at random (from a fixed seed), and the sheets of all tries are combined anew (Monaci & Toth 2006).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from generator.calculators.bar_choice import Column, choose
from generator.calculators.bar_job import trimmed_to_demand
from generator.calculators.effort import Effort
from generator.calculators.sheet_job import (
    Layout,
    Leaf,
    SheetCut,
    SheetJob,
    cost_of,
    counts_of,
    split,
    stages,
    tidied,
    without,
)
from generator.calculators.sheet_search import SheetResult, SheetSearch

#: Orders that are tried before the sheets are combined, at most.
TRIES = 400


def search(job: SheetJob, effort: Effort) -> SheetResult:
    """The cheapest plan that is found within the job's limit of stages; its bound is that of all plans."""
    free = SheetSearch(job, effort if job.stages is None else effort.part(effort.left // 2)).run()
    if job.stages is None or free.cuts is None or all(stages(cut.layout) <= job.stages for cut in free.cuts):
        return free
    cuts = _Laying(job, job.stages, effort).run(free.bound)
    if cuts is None:
        return replace(free, cuts=None)
    return replace(free, cuts=cuts)


@dataclass
class _Room:
    """A rectangle: free, a piece, or cut in two. `runs` changes of direction made it, the last cut `upright`."""

    width: int
    height: int
    upright: bool | None = None
    runs: int = 0
    piece: int = -1
    turned: bool = False
    at: int = 0
    cut_upright: bool = False
    parts: tuple[_Room, _Room] | None = None

    def layout(self) -> Layout:
        """The rectangle with all that was cut in it."""
        if self.parts is None:
            return Leaf(self.width, self.height, self.piece, self.turned)
        first, second = (part.layout() for part in self.parts)
        return split(self.width, self.height, self.cut_upright, self.at, first, second)

    def divide(self, upright: bool, at: int) -> tuple[_Room, _Room]:
        """Cut the rectangle in two."""
        runs = self.runs + (self.upright is not upright)
        if upright:
            sizes = (at, self.height), (self.width - at, self.height)
        else:
            sizes = (self.width, at), (self.width, self.height - at)
        first, second = (_Room(*size, upright, runs) for size in sizes)
        self.cut_upright, self.at, self.parts = upright, at, (first, second)
        return first, second


@dataclass(frozen=True)
class _Place:
    """A piece in a free rectangle; cut upright first, or level first."""

    sheet: int
    room: _Room
    wide: int
    high: int
    turned: bool
    upright: bool


class _Laying:
    """Lays the pieces of a job in many orders."""

    def __init__(self, job: SheetJob, limit: int, effort: Effort) -> None:
        self.job, self.limit, self.effort = job, limit, effort
        self.areas = job.areas
        self.known: dict[Column, Layout] = {}

    def run(self, bound: int) -> tuple[SheetCut, ...] | None:
        """The cheapest plan of all orders and of their sheets combined; None when no order finds room."""
        best: list[Column] | None = None
        order = [piece for piece, count in enumerate(self.job.demands) for _ in range(count)]
        noise = np.random.default_rng(1)
        kept = order
        for number in range(TRIES):
            if self.effort.spent or (best is not None and self._cost(best) <= bound):
                break
            trial = self._first(order, number) or self._changed(kept, noise)
            laid = self._lay(trial, wide_first=number % 2 == 0)
            if laid is not None and (best is None or self._cost(laid) <= self._cost(best)):
                best, kept = laid, trial
        combined = self._combined(bound, None if best is None else self._cost(best))
        if combined is not None and (best is None or cost_of(self.job, combined) < self._cost(best)):
            return combined
        if best is None:
            return None
        return tuple(SheetCut(stock, tidied(self.known[stock, counts]), counts, 1) for stock, counts in best)

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

    def _lay(self, order: list[int], wide_first: bool) -> list[Column] | None:
        """Sheets for one order; None when the stock on hand does not hold the pieces in it."""
        job = self.job
        limits = list(job.limits)
        sheets: list[tuple[int, _Room]] = []
        free: list[tuple[int, _Room]] = []
        for piece in order:
            place = self._best(piece, free, wide_first)
            if place is None:
                stock = self._new_sheet(piece, limits)
                if stock is None:
                    return None
                limit = limits[stock]
                limits[stock] = None if limit is None else limit - 1
                sheets.append((stock, _Room(*job.sheets[stock])))
                free.append((len(sheets) - 1, sheets[-1][1]))
                place = self._best(piece, free[-1:], wide_first)
                assert place is not None, "a piece that fits a sheet lies in its corner with two cuts"
            self._put(piece, place, free)
        laid = []
        for stock, room in sheets:
            layout = room.layout()
            column = (stock, counts_of(layout, len(job.pieces)))
            self.known.setdefault(column, layout)
            laid.append(column)
        return laid

    def _best(self, piece: int, free: Sequence[tuple[int, _Room]], wide_first: bool) -> _Place | None:
        """The free rectangle that the piece fills best, by its shorter rest."""
        self.effort.spend(4 + len(free) // 2)
        best: tuple[tuple[int, int, int], _Place] | None = None
        for rank, (sheet, room) in enumerate(free):
            for wide, high, turned in self.job.ways(piece):
                right, above = room.width - wide, room.height - high
                if right < 0 or above < 0:
                    continue
                for upright in (True, False):
                    if self._runs(room, right, above, upright) > self.limit:
                        continue
                    merit = (min(right, above), max(right, above), 2 * rank + (upright is not wide_first))
                    if best is None or merit < best[0]:
                        best = merit, _Place(sheet, room, wide, high, turned, upright)
        return None if best is None else best[1]

    @staticmethod
    def _runs(room: _Room, right: int, above: int, upright: bool) -> int:
        """Changes of direction when the piece's first cut is upright, or level."""
        directions = [each for each, rest in ((True, right), (False, above)) if rest]
        if not upright:
            directions.reverse()
        runs, last = room.runs, room.upright
        for each in directions:
            runs += last is not each
            last = each
        return runs

    def _put(self, piece: int, place: _Place, free: list[tuple[int, _Room]]) -> None:
        free[:] = [entry for entry in free if entry[1] is not place.room]
        room = place.room
        for upright in (place.upright, not place.upright):
            size, wish = (room.width, place.wide) if upright else (room.height, place.high)
            if wish < size:
                room, rest = room.divide(upright, wish)
                free.append((place.sheet, rest))
        room.piece, room.turned = piece, place.turned

    def _new_sheet(self, piece: int, limits: Sequence[int | None]) -> int | None:
        """The cheapest sheet by its area that holds the piece; what is on hand for nothing comes first."""
        areas = self.areas.capacities
        usable = [
            (self.job.prices[stock] / areas[stock], areas[stock], stock)
            for stock, (width, height) in enumerate(self.job.sheets)
            if limits[stock] != 0
            and any(wide <= width and high <= height for wide, high, _ in self.job.ways(piece))
        ]
        return min(usable)[2] if usable else None

    def _combined(self, bound: int, cost: int | None) -> tuple[SheetCut, ...] | None:
        """The cheapest choice among all sheets that were laid."""
        dearest = sum(self.job.prices) * sum(self.job.demands) if cost is None else cost - 1
        if not self.known or dearest < bound or self.effort.spent:
            return None
        _, cuts = choose(self.areas, list(self.known), dearest, self.effort, bound)
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
            layout = tidied(without(self.known[cut.stock, counts], surplus))
            result.append(SheetCut(cut.stock, layout, cut.pattern, cut.times))
        return tuple(result)
