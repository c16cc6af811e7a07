"""Bars cut to length: the cheapest plan, proved; then the longest off-cut; then the fewest different patterns.

Lengths in any one unit (exact), prices in any one currency (exact). With kerf k and end trim a, the pieces on a bar
of stock length S fulfil sum(l) + (n - 1) k <= S - 2 a, and the off-cut is S - 2 a - sum(l + k), at least 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.calculators.cutting.bars.constructive import best_fit
from generator.calculators.cutting.bars.fewer_patterns import count_patterns, fewer_patterns
from generator.calculators.cutting.bars.offcut import longest_offcut
from generator.calculators.cutting.bars.search import BarResult, BarSearch
from generator.calculators.cutting.core.budget import UNITS_PER_SECOND, WorkBudget
from generator.calculators.cutting.core.grid import on_grid, price_steps
from generator.calculators.cutting.core.job import BarJob, Cut, cost_of

#: Most steps of the longest bar, and most cells of the table that fills it; with more, lengths are planned on a coarser
#: grid (`core.grid`).
MOST_STEPS, MOST_CELLS = 1_000_000, 30_000_000

#: Units of work for a longer off-cut at most: of 22 shop jobs, 21 need less than half of it to prove theirs. Measured.
MOST_FOR_OFFCUT = 3 * UNITS_PER_SECOND // 2

#: Most steps of all that is bought at most.
MOST_COST = 1 << 49


@dataclass(frozen=True)
class BarPiece:
    """`count` pieces of one length. Pieces of one `group` come from one lot (a matched set)."""

    length: Fraction
    count: int
    group: str = ""


@dataclass(frozen=True)
class BarStock:
    """Bars of one length; `limit` None is as many as needed, a number what is on hand."""

    length: Fraction
    price: Fraction = Fraction(1)
    limit: int | None = None
    lot: str = ""


@dataclass(frozen=True)
class CutBar:
    """One bar: the place of its stock and of its pieces in the lists that were given, longest piece first."""

    stock: int
    pieces: tuple[int, ...]
    offcut: Fraction


@dataclass(frozen=True)
class BarShortage:
    """`count` of a piece that no bar is left for, or that is `short_by` too long for the longest bar.

    What is enough: `bars` more bars of stock length `needs` (0 bars: the stock must be that long).
    """

    piece: int
    count: int
    short_by: Fraction
    needs: Fraction
    bars: int


@dataclass(frozen=True)
class BarPlan:
    """A plan, or (with `shortages`) none. `bound` <= the cost of every plan; `proved` when it is this plan's cost."""

    bars: tuple[CutBar, ...]
    cost: Fraction
    bound: Fraction
    proved: bool
    offcut: Fraction = Fraction(0)
    offcut_is_longest: bool = False
    patterns: int = 0
    patterns_are_fewest: bool = False
    shortages: tuple[BarShortage, ...] = ()

    @property
    def gap(self) -> Fraction:
        """By how much of the bound the plan may be dearer than the cheapest (0 when proved)."""
        return (self.cost - self.bound) / self.bound if self.bound else Fraction(0)


@dataclass(frozen=True)
class BarSteps:
    """A job in whole steps and the way back: `members[i]` are the places of the pieces of job length i.

    `sizes` are the true lengths with their kerf, `rooms` what each stock holds of them. Whatever fits `job` can be
    cut; whatever can be cut fits `wide`, which is the same job where the steps lose nothing. `close` has very small
    steps, for rules that need no table of them. `exact`: no length is rounded.
    """

    job: BarJob
    wide: BarJob
    close: BarJob
    members: tuple[tuple[int, ...], ...]
    sizes: tuple[Fraction, ...]
    rooms: tuple[Fraction, ...]
    price_step: Fraction
    exact: bool

    def rest(self, cut: Cut) -> Fraction:
        """What a bar truly has left, less than 0 when it does not hold its pieces."""
        held = sum(
            (size * count for size, count in zip(self.sizes, cut.pattern, strict=True) if count), Fraction()
        )
        return self.rooms[cut.stock] - held


def in_steps(
    stock: Sequence[BarStock], pieces: Sequence[BarPiece], kerf: Fraction, trim: Fraction
) -> BarSteps:
    """Bring a problem to whole numbers; equal lengths become one."""
    members: dict[Fraction, list[int]] = {}
    for place, piece in enumerate(pieces):
        if piece.count > 0:
            members.setdefault(piece.length + kerf, []).append(place)
    sizes = sorted(members, reverse=True)
    counts = [sum(pieces[place].count for place in members[size]) for size in sizes]
    rooms = [each.length - 2 * trim + kerf for each in stock]
    rows = sum(count.bit_length() for count in counts)
    grid = on_grid(sizes, [list(enumerate(counts))], rooms, min(MOST_STEPS, MOST_CELLS // max(1, rows)))
    prices, price_step = price_steps([each.price for each in stock], MOST_COST // max(1, sum(counts)))
    limits = (None if each.limit is None else min(each.limit, sum(counts)) for each in stock)
    job = BarJob(grid.sizes, tuple(counts), grid.inner, prices, tuple(limits))
    return BarSteps(
        job,
        replace(job, capacities=grid.outer),
        replace(job, lengths=grid.close_sizes, capacities=grid.close_rooms),
        tuple(tuple(members[size]) for size in sizes),
        tuple(sizes),
        tuple(rooms),
        price_step,
        grid.exact,
    )


def plan_bars(
    stock: Sequence[BarStock],
    pieces: Sequence[BarPiece],
    *,
    kerf: Fraction,
    trim: Fraction,
    budget: WorkBudget,
) -> BarPlan:
    """Plan the cuts. The same problem and budget give the same plan on every machine."""
    scaled = in_steps(stock, pieces, kerf, trim)
    if not scaled.sizes:
        return BarPlan((), Fraction(0), Fraction(0), True, offcut_is_longest=True, patterns_are_fewest=True)
    too_long = _too_long(scaled, stock, pieces, trim)
    if too_long:
        return _no_plan(too_long)
    result = _search(scaled, budget.part(budget.left * 7 // 10))
    if result.cuts is None:
        return _no_plan(_too_few(scaled, stock, budget))
    cuts, longest, fewest = _improved(scaled, result, budget)
    return _plan(scaled, result, cuts, stock, pieces, kerf, (longest, fewest))


def _search(scaled: BarSteps, budget: WorkBudget) -> BarResult:
    """The cheapest plan. Where steps are rounded, first one that may be a hair too long, for it proves the bound."""
    if scaled.wide == scaled.job:
        return BarSearch(scaled.job, budget).run()
    wide = BarSearch(scaled.wide, budget.part(budget.left // 2)).run()
    if wide.cuts is not None and all(scaled.rest(cut) >= 0 for cut in wide.cuts):
        return wide
    found = BarSearch(scaled.job, budget).run()
    close = scaled.close
    plans = [found.cuts, best_fit(close, close.demands, close.limits, budget)]
    cuts = min((tuple(plan) for plan in plans if plan), key=lambda plan: cost_of(close, plan), default=None)
    return replace(found, cuts=cuts, bound=wide.bound)


def _improved(scaled: BarSteps, result: BarResult, budget: WorkBudget) -> tuple[tuple[Cut, ...], bool, bool]:
    """The plan with a longer off-cut, then with fewer patterns; whether none is longer, and none has fewer."""
    cuts, longest, fewest = result.cuts or (), False, False
    if scaled.wide != scaled.job:
        return cuts, longest, fewest
    if not budget.spent:
        part = budget.part(min(budget.left // 2, MOST_FOR_OFFCUT))
        offcut = longest_offcut(scaled.job, cuts, result.columns, part)
        longest = offcut.longest and scaled.exact
        if scaled.exact or _longest_rest(scaled, offcut.cuts) >= _longest_rest(scaled, cuts):
            cuts = offcut.cuts
    if not budget.spent:
        settings = fewer_patterns(scaled.job, cuts, result.columns, budget.part(budget.left // 4))
        if scaled.exact or _longest_rest(scaled, settings.cuts) >= _longest_rest(scaled, cuts):
            cuts, fewest = settings.cuts, settings.fewest and scaled.exact
    return cuts, longest, fewest


def _longest_rest(scaled: BarSteps, cuts: Sequence[Cut]) -> Fraction:
    return max(scaled.rest(cut) for cut in cuts)


def _no_plan(shortages: Sequence[BarShortage]) -> BarPlan:
    return BarPlan((), Fraction(0), Fraction(0), False, shortages=tuple(shortages))


def _too_long(
    scaled: BarSteps, stock: Sequence[BarStock], pieces: Sequence[BarPiece], trim: Fraction
) -> list[BarShortage]:
    """Pieces that are longer than any bar after its end trims."""
    room = max((s.length - 2 * trim for s in stock if s.limit != 0), default=Fraction(0))
    return [
        BarShortage(
            place, pieces[place].count, pieces[place].length - room, pieces[place].length + 2 * trim, 0
        )
        for members in scaled.members
        for place in members
        if pieces[place].length > room
    ]


def _too_few(scaled: BarSteps, stock: Sequence[BarStock], budget: WorkBudget) -> list[BarShortage]:
    """Pieces that find no bar: those on extra bars of the longest stock, as few of these as can be found."""
    longest = max((s for s in range(len(stock)) if stock[s].limit != 0), key=lambda s: stock[s].length)
    wider, close = (_with_extra(job, longest) for job in (scaled.job, scaled.close))
    cuts = BarSearch(wider, budget.part(UNITS_PER_SECOND)).run().cuts
    plan = cuts or best_fit(close, close.demands, close.limits, budget) or ()
    extra = [cut for cut in plan if cut.stock == len(stock)]
    bars = sum(cut.times for cut in extra)
    shortages = []
    for index, members in enumerate(scaled.members):
        count = sum(cut.pattern[index] * cut.times for cut in extra)
        if count:
            lacks = count * scaled.sizes[index]
            shortages.append(BarShortage(members[0], count, lacks, stock[longest].length, bars))
    return shortages


def _with_extra(job: BarJob, stock: int) -> BarJob:
    """The job with any number of bars of a stock beside those on hand, at a price that makes them the last choice."""
    return replace(
        job,
        capacities=(*job.capacities, job.capacities[stock]),
        prices=(*(int(limit is None) for limit in job.limits), sum(job.demands) + 1),
        limits=(*job.limits, None),
    )


def _plan(
    scaled: BarSteps,
    result: BarResult,
    cuts: Sequence[Cut],
    stock: Sequence[BarStock],
    pieces: Sequence[BarPiece],
    kerf: Fraction,
    shown: tuple[bool, bool],
) -> BarPlan:
    """The plan in the given unit: equal bars together, the fullest first, the longest off-cut last."""
    queues = [
        iter([place for place in members for _ in range(pieces[place].count)]) for members in scaled.members
    ]
    bars: list[CutBar] = []
    for cut in sorted(cuts, key=lambda cut: (scaled.rest(cut), cut.stock, cut.pattern)):
        held = [index for index, count in enumerate(cut.pattern) for _ in range(count)]
        offcut = max(Fraction(0), scaled.rest(cut) - kerf)
        bars += [
            CutBar(cut.stock, tuple(next(queues[index]) for index in held), offcut) for _ in range(cut.times)
        ]
    cost = sum((stock[cut.stock].price * cut.times for cut in cuts), Fraction(0))
    bound = min(cost, result.bound * scaled.price_step)
    offcut = max((bar.offcut for bar in bars), default=Fraction(0))
    return BarPlan(tuple(bars), cost, bound, cost == bound, offcut, shown[0], count_patterns(cuts), shown[1])
