"""Bars cut to length: the cheapest plan, proved; then the longest off-cut; then the fewest different
patterns.

Lengths in any one unit (exact), prices in any one currency (exact). With kerf k and end trim a, the pieces on
a bar of
stock length S fulfil sum(l) + (n - 1) k <= S - 2 a, and the off-cut is S - 2 a - sum(l + k), at least 0.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.bar_job import BarJob, Cut, common_step, whole_steps
from generator.calculators.bar_offcut import longest_offcut
from generator.calculators.bar_search import BarResult, BarSearch
from generator.calculators.bar_settings import count_patterns, fewer_patterns
from generator.calculators.effort import EFFORT_PER_SECOND, Effort


@dataclass(frozen=True)
class BarPiece:
    """So many pieces of one length. Pieces of one `group` come from one lot (a matched set)."""

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
    """So many (`count`) of a piece that no bar is left for, or that is `short_by` too long for the longest
    bar.

    What would do: `bars` more bars of stock length `needs` (0 bars: the stock must be that long).
    """

    piece: int
    count: int
    short_by: Fraction
    needs: Fraction
    bars: int


@dataclass(frozen=True)
class BarProof:
    """Why no plan is cheaper. Anyone can check it: see `bar_bounds`.

    `worths` belong to the piece lengths `lengths` (with kerf, in steps of `step`, longest first). With
    `counted`, the worths alone prove less and every pattern that a cheaper plan could use was counted out as
    well.
    """

    step: Fraction
    lengths: tuple[int, ...]
    worths: tuple[int, ...]
    counted: bool


@dataclass(frozen=True)
class BarPlan:
    """A plan, or (with `shortages`) none. `bound` <= the cost of every plan; `proved` when it is this
    plan's cost.
    """

    bars: tuple[CutBar, ...]
    cost: Fraction
    bound: Fraction
    proved: bool
    proof: BarProof | None = None
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
    """A job in whole steps and the way back: `members[i]` are the places of the pieces of job length i."""

    job: BarJob
    members: tuple[tuple[int, ...], ...]
    step: Fraction
    price_step: Fraction


def in_steps(
    stock: Sequence[BarStock], pieces: Sequence[BarPiece], kerf: Fraction, trim: Fraction
) -> BarSteps:
    """Scale a problem to whole numbers, exactly; equal lengths become one."""
    per_unit = whole_steps([kerf, trim, *(s.length for s in stock), *(p.length for p in pieces)])
    members: dict[int, list[int]] = {}
    for place, piece in enumerate(pieces):
        if piece.count > 0:
            members.setdefault(int((piece.length + kerf) * per_unit), []).append(place)
    lengths = sorted(members, reverse=True)
    capacities = [int((s.length - 2 * trim + kerf) * per_unit) for s in stock]
    step = common_step([*lengths, *capacities])
    price_unit = whole_steps([s.price for s in stock])
    price_step = common_step([int(s.price * price_unit) for s in stock])
    job = BarJob(
        tuple(length // step for length in lengths),
        tuple(sum(pieces[place].count for place in members[length]) for length in lengths),
        tuple(max(0, capacity // step) for capacity in capacities),
        tuple(int(s.price * price_unit) // price_step for s in stock),
        tuple(s.limit for s in stock),
    )
    return BarSteps(
        job,
        tuple(tuple(members[length]) for length in lengths),
        Fraction(step, per_unit),
        Fraction(price_step, price_unit),
    )


@dataclass(frozen=True)
class _End:
    """Where the search ended: the cuts, the pieces of each length in order, and what was shown."""

    cuts: tuple[Cut, ...]
    queues: tuple[tuple[int, ...], ...]
    longest: bool
    fewest: bool


def plan_bars(
    stock: Sequence[BarStock], pieces: Sequence[BarPiece], *, kerf: Fraction, trim: Fraction, effort: Effort
) -> BarPlan:
    """Plan the cuts. The same problem and effort give the same plan on every machine."""
    scaled = in_steps(stock, pieces, kerf, trim)
    job = scaled.job
    if not job.lengths:
        return BarPlan((), Fraction(0), Fraction(0), True, offcut_is_longest=True, patterns_are_fewest=True)
    too_long = _too_long(scaled, stock, pieces, trim)
    if too_long:
        return _no_plan(too_long)
    result = BarSearch(job, effort.part(effort.left * 7 // 10)).run()
    if result.cuts is None:
        return _no_plan(_too_few(scaled, stock))
    cuts, longest, fewest = result.cuts, False, False
    if not effort.spent:
        offcut = longest_offcut(job, cuts, result.columns, effort.part(effort.left // 2))
        cuts, longest = offcut.cuts, offcut.longest
    if not effort.spent:
        settings = fewer_patterns(job, cuts, result.columns, effort.part(effort.left // 4))
        cuts, fewest = settings.cuts, settings.fewest
    queues = tuple(
        tuple(place for place in members for _ in range(pieces[place].count)) for members in scaled.members
    )
    return _plan(scaled, result, _End(cuts, queues, longest, fewest), stock, kerf, trim)


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


def _too_few(scaled: BarSteps, stock: Sequence[BarStock]) -> list[BarShortage]:
    """Pieces that find no bar: those on extra bars of the longest stock, as few of these as can be found."""
    job = scaled.job
    longest = max((s for s in range(len(stock)) if job.limits[s] != 0), key=lambda s: job.capacities[s])
    wider = BarJob(
        job.lengths,
        job.demands,
        (*job.capacities, job.capacities[longest]),
        (*(int(limit is None) for limit in job.limits), sum(job.demands) + 1),
        (*job.limits, None),
    )
    cuts = BarSearch(wider, Effort(EFFORT_PER_SECOND)).run().cuts
    assert cuts is not None
    extra = [cut for cut in cuts if cut.stock == len(stock)]
    bars = sum(cut.times for cut in extra)
    shortages = []
    for index, members in enumerate(scaled.members):
        count = sum(cut.pattern[index] * cut.times for cut in extra)
        if count:
            length = job.lengths[index] * scaled.step
            shortages.append(BarShortage(members[0], count, count * length, stock[longest].length, bars))
    return shortages


def _plan(
    scaled: BarSteps, result: BarResult, end: _End, stock: Sequence[BarStock], kerf: Fraction, trim: Fraction
) -> BarPlan:
    """The plan in the given unit: bars that are cut alike together, the fullest first, the longest off-cut
    last.
    """
    job = scaled.job
    order = sorted(
        end.cuts, key=lambda cut: (job.capacities[cut.stock] - job.used(cut.pattern), cut.stock, cut.pattern)
    )
    bars: list[CutBar] = []
    queues = [list(queue) for queue in end.queues]
    for cut in order:
        for _ in range(cut.times):
            places = [queues[index].pop(0) for index, count in enumerate(cut.pattern) for _ in range(count)]
            rest = (job.capacities[cut.stock] - job.used(cut.pattern)) * scaled.step - kerf
            bars.append(CutBar(cut.stock, tuple(places), max(Fraction(0), rest)))
    cost = sum((stock[bar.stock].price for bar in bars), Fraction(0))
    bound = min(cost, result.bound * scaled.price_step)
    proof = BarProof(scaled.step, job.lengths, result.proof.worths, result.counted)
    offcut = max((bar.offcut for bar in bars), default=Fraction(0))
    return BarPlan(
        tuple(bars),
        cost,
        bound,
        cost == bound,
        proof,
        offcut,
        end.longest,
        count_patterns(end.cuts),
        end.fewest,
    )
