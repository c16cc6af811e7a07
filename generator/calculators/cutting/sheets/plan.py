"""Sheets cut from edge to edge: the cheapest plan that is found, a proved bound, and every cut as a tree.

Lengths in any one unit (exact), prices in any one currency (exact). With kerf k and edge trim a, the usable sheet is
(W - 2 a) x (H - 2 a); a cut between two parts takes k, and a part may end at the sheet's usable edge.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Any

from generator.calculators.cutting.core.budget import UNITS_PER_SECOND, WorkBudget
from generator.calculators.cutting.core.grid import SizeGrid, on_grid, price_steps
from generator.calculators.cutting.sheets.boards import plan_boards
from generator.calculators.cutting.sheets.constructive import ConstructiveHeuristic
from generator.calculators.cutting.sheets.job import Layout, Leaf, SheetCut, SheetJob, ShopRule
from generator.calculators.cutting.sheets.model import (
    Area,
    BreakDown,
    CutSheet,
    CutTree,
    PlacedPiece,
    SawCut,
    SheetPiece,
    SheetPlan,
    SheetShortage,
    SheetStock,
    ShopRules,
)
from generator.calculators.cutting.sheets.search import SheetSearch
from generator.calculators.cutting.sheets.stages import StagedPlan, search
from generator.calculators.cutting.sheets.true_sizes import Track, true_layout, true_reach

#: Most steps of the longest side of a sheet; with more, sizes are planned on a coarser grid (`core.grid`).
MOST_STEPS = 50_000

#: Units of work to lay out a piece in the plan that is handed over, and to write it down. Measured, no source.
HANDED_OVER = 350

#: Most steps of all that is bought at most.
MOST_COST = 1 << 49


@dataclass(frozen=True)
class SheetSteps:
    """A job in whole steps and the way back: `members[i]` are the places of the pieces of job size i.

    Whatever fits `job` can be cut; whatever can be cut fits `wide`, which is the same job where the steps lose
    nothing. `close` has very small steps, for rules that need no table of them. `sizes` and `rooms` are true, with
    the kerf. A step of a job that is laid out is `step` long: its own, or 1 where `exact` is not true.
    """

    job: SheetJob
    wide: SheetJob
    close: SheetJob
    members: tuple[tuple[int, ...], ...]
    sizes: tuple[tuple[Fraction, Fraction], ...]
    rooms: tuple[tuple[Fraction, Fraction], ...]
    grid: SizeGrid
    price_step: Fraction
    kerf: Fraction
    trim: Fraction
    breaking: BreakDown | None = None

    @property
    def step(self) -> Fraction:
        """How long a step of a cut is that was laid out."""
        return self.grid.step if self.grid.exact else Fraction(1)

    @property
    def wider(self) -> Fraction:
        """By how much the saw that breaks sheets down takes more than the other; below 0 for a thinner blade."""
        return self.breaking.wider(self.kerf) if self.breaking else Fraction(0)

    def laid(self, cut: SheetCut, step: Fraction) -> SheetCut | None:
        """A cut whose steps are about `step` long, laid out; None when its sheet does not hold the true sizes."""
        if self.grid.exact:
            return cut
        room = self.rooms[cut.stock]
        needs = true_reach(cut.layout, self.sizes)
        if needs[0] > room[0] or needs[1] > room[1]:
            return None
        track = Track(self.breaking.longest + self.kerf, self.wider) if self.breaking else None
        layout = true_layout(cut.layout, room, self.sizes, step, track)
        return None if layout is None else replace(cut, layout=layout)


def in_steps(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    kerf: Fraction,
    trim: Fraction,
    stages: int | None = None,
    breaking: BreakDown | None = None,
    rules: ShopRules | None = None,
    keep: tuple[Fraction, Fraction] | None = None,
) -> SheetSteps:
    """Bring a problem to whole numbers; pieces of one size and freedom to turn become one."""
    members = _alike(pieces, kerf)
    keys = sorted(members, key=lambda key: (-key[0] * key[1], key))
    counts = [sum(pieces[place].count for place in members[key]) for key in keys]
    limits = [breaking.longest + kerf, breaking.allowance, abs(breaking.wider(kerf))] if breaking else []
    rooms = [(s.width - 2 * trim + kerf, s.height - 2 * trim + kerf) for s in stock]
    ways = [(place, turned) for place, key in enumerate(keys) for turned in range(1 + key[2])]
    grid = on_grid(
        [side for key in keys for side in key[:2]] + limits,
        [[(2 * place + (axis ^ turned), counts[place]) for place, turned in ways] for axis in (0, 1)],
        [room[axis] for axis in (0, 1) for room in rooms],
        MOST_STEPS,
    )
    prices, price_step = price_steps([s.price for s in stock], MOST_COST // max(1, sum(counts)))
    count = len(stock)
    least = [math.ceil((side + kerf) / grid.step) for side in keep] if keep else [0, 0]
    asked = (kerf, rules.least_left, rules.least_feed) if rules else ()

    def job(sizes: Sequence[int], held: Sequence[int], grain: int) -> SheetJob:
        return SheetJob(
            tuple(zip(sizes[: 2 * len(keys) : 2], sizes[1 : 2 * len(keys) : 2], strict=True)),
            tuple(key[2] for key in keys),
            tuple(counts),
            tuple(zip(held[:count], held[count:], strict=True)),
            prices,
            tuple(None if s.limit is None else min(s.limit, sum(counts)) for s in stock),
            stages,
            *_broken(breaking, kerf, grid.step * grain, grid.exact),
            ShopRule(*(math.ceil(length / (grid.step * grain)) for length in asked)),
            (least[0] // grain, least[1] // grain),
        )

    close = job(grid.close_sizes, grid.close_rooms, 1)
    fits = close if grid.exact else job(grid.sizes, grid.inner, grid.grain)
    return SheetSteps(
        fits,
        fits if grid.inner == grid.outer else job(grid.sizes, grid.outer, grid.grain),
        close,
        tuple(tuple(members[key]) for key in keys),
        tuple(key[:2] for key in keys),
        tuple(rooms),
        grid,
        price_step,
        kerf,
        trim,
        breaking,
    )


def _broken(
    breaking: BreakDown | None, kerf: Fraction, step: Fraction, exact: bool
) -> tuple[int | None, int, int]:
    """The longest part for the fence, the allowance, and how much wider the other blade is, in steps."""
    if breaking is None:
        return None, 0, 0
    # what a thinner blade saves is not counted on where lengths are rounded
    wider = breaking.wider(kerf) if exact else max(Fraction(0), breaking.wider(kerf))
    return (
        math.floor((breaking.longest + kerf) / step),
        math.ceil(breaking.allowance / step),
        math.ceil(wider / step),
    )


def _alike(pieces: Sequence[SheetPiece], kerf: Fraction) -> dict[tuple[Fraction, Fraction, bool], list[int]]:
    """Places of the pieces of each size, with the kerf, and freedom to turn; the longer side of these first."""
    members: dict[tuple[Fraction, Fraction, bool], list[int]] = {}
    for place, piece in enumerate(pieces):
        wide, high = piece.width + kerf, piece.height + kerf
        turns = piece.turns and wide != high
        if piece.count > 0:
            key = (max(wide, high), min(wide, high), True) if turns else (wide, high, False)
            members.setdefault(key, []).append(place)
    return members


def plan_sheets(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    *,
    kerf: Fraction,
    trim: Fraction,
    budget: WorkBudget,
    stages: int | None = None,
    breaking: BreakDown | None = None,
    rules: ShopRules | None = None,
    keep: tuple[Fraction, Fraction] | None = None,
    offcut_part: int = 2,
) -> SheetPlan:
    """Plan the cuts.

    With `stages` (2 or more), there are at most this many runs of cuts in one direction. With `breaking`, sheets are
    broken down first where they are too long for the fence, by a saw that may have its own kerf.
    `rules` are kept where that costs no more.
    Of plans of one cost, one with a large off-cut is looked for, where off-cuts from the size `keep` on are of use,
    by one part in `offcut_part` of what is left of the budget.

    Boards with defects are planned by `boards`. The same problem and budget give the same plan on every machine.
    """
    if any(each.defects for each in stock):
        return plan_boards(stock, pieces, kerf=kerf, trim=trim, budget=budget, stages=stages)
    scaled = in_steps(stock, pieces, kerf, trim, stages, breaking, rules, keep)
    if not scaled.sizes:
        return SheetPlan((), Fraction(0), Fraction(0), True)
    too_large = _too_large(stock, pieces, trim)
    if too_large:
        return _no_plan(too_large)
    budget.spend(HANDED_OVER * sum(scaled.job.demands))
    thin = None
    if breaking and scaled.wider < 0:  # no plan takes less than one whose cuts are all as thin
        thinner = in_steps(stock, pieces, kerf + scaled.wider, trim)
        result = SheetSearch(thinner.wide, budget.part(budget.left // 4)).run()
        thin = result.bound * thinner.price_step
    found = _search(scaled, budget, offcut_part)
    if found.cuts is None:
        return _no_plan(_too_few(scaled, stock, budget))
    sheets = _sheets(scaled, pieces, found.cuts)
    cost = sum((stock[sheet.stock].price for sheet in sheets), Fraction(0))
    clean = None
    if found.clean is not None:
        clean = sum((stock[cut.stock].price * cut.times for cut in found.clean), Fraction(0))
    bound = min(cost, found.bound * scaled.price_step if thin is None else thin)
    return SheetPlan(sheets, cost, bound, cost == bound, clean_cost=clean)


def _search(scaled: SheetSteps, budget: WorkBudget, offcut_part: int = 2) -> StagedPlan:
    """The cheapest plan, laid out, and its bound; where steps are rounded, one that may not fit is tried first."""
    bound = None
    step = scaled.grid.step * scaled.grid.grain
    if scaled.wide is not scaled.job:
        wide = search(scaled.wide, budget.part(budget.left // 2), offcut_part)
        bound = wide.bound
        plan = _laid(scaled, wide.cuts, step)
        if plan is not None:
            return StagedPlan(plan, bound, _laid(scaled, wide.clean, step))
    result = search(scaled.job, budget, offcut_part)
    bound = result.bound if bound is None else bound
    plan = _laid(scaled, result.cuts, step)
    rough = plan or _laid(scaled, ConstructiveHeuristic(scaled.close, budget).rough(), scaled.grid.step)
    return StagedPlan(rough, bound, _laid(scaled, result.clean, step))


def _laid(scaled: SheetSteps, cuts: Sequence[SheetCut] | None, step: Fraction) -> list[SheetCut] | None:
    """All cuts laid out, or None when one of them does not fit."""
    laid = [scaled.laid(cut, step) for cut in cuts or ()]
    return [cut for cut in laid if cut is not None] if laid and None not in laid else None


def _no_plan(shortages: Sequence[SheetShortage]) -> SheetPlan:
    return SheetPlan((), Fraction(0), Fraction(0), False, shortages=tuple(shortages))


def _too_large(
    stock: Sequence[SheetStock], pieces: Sequence[SheetPiece], trim: Fraction
) -> list[SheetShortage]:
    """Pieces that fit no sheet after its edges are trimmed, with the least that is missing."""
    shortages = []
    for place, piece in enumerate(pieces):
        ways = [(piece.width, piece.height)] + ([(piece.height, piece.width)] if piece.turns else [])
        lacks = [
            (max(wide - sheet.width, high - sheet.height) + 2 * trim, (wide + 2 * trim, high + 2 * trim))
            for wide, high in ways
            for sheet in stock
            if sheet.limit != 0
        ]
        lack, needs = min(lacks, default=(max(piece.width, piece.height), ways[0]))
        if piece.count > 0 and lack > 0:
            shortages.append(SheetShortage(place, piece.count, lack, needs, 0))
    return shortages


def _too_few(scaled: SheetSteps, stock: Sequence[SheetStock], budget: WorkBudget) -> list[SheetShortage]:
    """Pieces that found no sheet: those on extra sheets of the largest size."""
    usable = [place for place, each in enumerate(stock) if each.limit != 0]
    largest = max(usable, key=lambda place: stock[place].width * stock[place].height)
    close, job = (_with_extra(each, largest) for each in (scaled.close, scaled.job))
    rooms = (*scaled.rooms, scaled.rooms[largest])
    wider = replace(scaled, job=job, wide=job, close=close, rooms=rooms)
    found = _search(wider, budget.part(UNITS_PER_SECOND))
    extra = [cut for cut in found.cuts or () if cut.stock == len(stock)]
    sheets = sum(cut.times for cut in extra)
    size = (stock[largest].width, stock[largest].height)
    shortages = []
    for index, members in enumerate(scaled.members):
        count = sum(cut.counts[index] * cut.times for cut in extra)
        if count:
            area = count * scaled.sizes[index][0] * scaled.sizes[index][1]
            shortages.append(SheetShortage(members[0], count, area, size, sheets))
    return shortages


def _with_extra(job: SheetJob, stock: int) -> SheetJob:
    """The job with any number of sheets of a stock beside those on hand, at a price that makes them the last choice."""
    return replace(
        job,
        sheets=(*job.sheets, job.sheets[stock]),
        prices=(*(1 for _ in job.prices), 1 + sum(job.demands)),
        limits=(*job.limits, None),
    )


def _sheets(
    scaled: SheetSteps, pieces: Sequence[SheetPiece], cuts: Sequence[SheetCut]
) -> tuple[CutSheet, ...]:
    """The sheets in the given unit; the fullest first, equal sheets together."""
    areas = scaled.close.areas
    trees = _Trees(scaled, pieces)
    order = sorted(
        cuts, key=lambda cut: (areas.capacities[cut.stock] - areas.used(cut.counts), cut.stock, cut.counts)
    )
    result = []
    for cut in order:
        for _ in range(cut.times):
            tree = trees.tree(cut.layout)
            assert tree is not None
            result.append(CutSheet(cut.stock, tree))
    return tuple(result)


class _Trees:
    """Layouts in the given unit. Each number of steps is turned into a length once: plans have few of many places."""

    def __init__(self, scaled: SheetSteps, pieces: Sequence[SheetPiece]) -> None:
        # the job has a piece that turns with its longer side across
        self._stands = [piece.turns and piece.width < piece.height for piece in pieces]
        self._limit = scaled.breaking.longest if scaled.breaking else None
        self._kerfs = (scaled.kerf, scaled.kerf + scaled.wider)  # by whether it is cut by track saw
        self._queues = [
            iter([place for place in members for _ in range(pieces[place].count)])
            for members in scaled.members
        ]
        step, kerf, trim = scaled.step, scaled.kerf, scaled.trim
        self._place = cache(lambda steps: steps * step + trim)
        self._before = cache(lambda steps: steps * step + trim - kerf)
        self._size = cache(lambda steps: steps * step - kerf)
        self._sizes = [tuple(side - kerf for side in size) for size in scaled.sizes]

    def tree(
        self, layout: Layout, x: Any = 0, y: Any = 0, stage: int = 0, upright: bool = True
    ) -> CutTree | None:
        """The layout at a place in steps; `stage` and `upright` are those of the cut that made this part."""
        area = Area(self._place(x), self._place(y), self._size(layout.width), self._size(layout.height))
        if isinstance(layout, Leaf):
            if layout.piece < 0:
                return CutTree(area) if area.width > 0 and area.height > 0 else None
            place = next(self._queues[layout.piece])
            lies = Area(area.x, area.y, *self._sizes[layout.piece][:: -1 if layout.turned else 1])
            return CutTree(lies, PlacedPiece(place, lies, layout.turned is not self._stands[place]))
        stage += stage == 0 or upright is not layout.upright
        by_track = self._limit is not None and max(area.width, area.height) > self._limit
        over = (x + layout.over, y) if layout.upright else (x, y + layout.over)
        at = self._before((x if layout.upright else y) + layout.at)
        cut = SawCut(area, layout.upright, at, stage, self._size(layout.at), by_track, self._kerfs[by_track])
        first = self.tree(layout.first, x, y, stage, layout.upright)
        second = self.tree(layout.second, *over, stage, layout.upright)
        return CutTree(area, None, cut, first, second)
