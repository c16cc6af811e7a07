"""Sheets cut from edge to edge: the cheapest plan that is found, a proved bound, and every cut as a tree.

Lengths in any one unit (exact), prices in any one currency (exact). With kerf k and edge trim a, the usable
sheet is
(W - 2 a) x (H - 2 a); a cut between two parts takes k, and a part may end at the sheet's usable edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.bar_job import common_step, whole_steps
from generator.calculators.effort import EFFORT_PER_SECOND, Effort
from generator.calculators.sheet_job import Layout, Leaf, SheetCut, SheetJob
from generator.calculators.sheet_stages import search


@dataclass(frozen=True)
class SheetPiece:
    """So many pieces of one size. One that `turns` may lie either way (no grain, or grain of no matter)."""

    width: Fraction
    height: Fraction
    count: int
    turns: bool = False


@dataclass(frozen=True)
class SheetStock:
    """Sheets of one size; `limit` None is as many as needed, a number what is on hand."""

    width: Fraction
    height: Fraction
    price: Fraction = Fraction(1)
    limit: int | None = None


@dataclass(frozen=True)
class BreakDown:
    """The longest part that goes to the fence, and by how much a part is left too long for its final cut there."""

    longest: Fraction
    allowance: Fraction = Fraction(0)


@dataclass(frozen=True)
class Area:
    """A rectangle on a sheet, from the sheet's own lower left corner."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


@dataclass(frozen=True)
class PlacedPiece:
    """A piece (its place in the list that was given) where it lies; the area's sizes are as it lies."""

    piece: int
    area: Area
    turned: bool


@dataclass(frozen=True)
class SawCut:
    """One cut through `area` from edge to edge: upright at x or level at y, the kerf from `at` to `at` +
    kerf.

    `stage` counts the changes of direction up to this cut, from 1. `setting` is the size that the fence
    leaves
    between it and the blade: the side of the cut nearer to the origin. A cut `by_track` breaks a part down that is too
    long for the fence.
    """

    area: Area
    upright: bool
    at: Fraction
    stage: int
    setting: Fraction
    by_track: bool = False


@dataclass(frozen=True)
class CutTree:
    """What becomes of an area: a piece, an off-cut, or two areas by a cut. A side that is all kerf is None."""

    area: Area
    piece: PlacedPiece | None = None
    cut: SawCut | None = None
    first: CutTree | None = None
    second: CutTree | None = None

    def cuts(self) -> Iterator[SawCut]:
        """Every cut, each before those in the parts that it makes."""
        if self.cut is not None:
            yield self.cut
        for part in (self.first, self.second):
            if part is not None:
                yield from part.cuts()

    def pieces(self) -> Iterator[PlacedPiece]:
        """Every piece."""
        if self.piece is not None:
            yield self.piece
        for part in (self.first, self.second):
            if part is not None:
                yield from part.pieces()

    def offcuts(self) -> Iterator[Area]:
        """Every part that is neither a piece nor cut further."""
        if self.piece is None and self.cut is None:
            yield self.area
        for part in (self.first, self.second):
            if part is not None:
                yield from part.offcuts()


@dataclass(frozen=True)
class CutSheet:
    """One sheet: the place of its stock in the list that was given, and its cuts after the edges are
    trimmed.
    """

    stock: int
    tree: CutTree

    @property
    def pieces(self) -> tuple[PlacedPiece, ...]:
        """The pieces in the order of the cuts."""
        return tuple(self.tree.pieces())

    @property
    def cuts(self) -> tuple[SawCut, ...]:
        """The cuts in an order that the saw can follow."""
        return tuple(self.tree.cuts())

    @property
    def offcuts(self) -> tuple[Area, ...]:
        """The off-cuts, the largest first."""
        return tuple(sorted(self.tree.offcuts(), key=lambda a: (-a.width * a.height, a.x, a.y)))


@dataclass(frozen=True)
class SheetShortage:
    """A piece that no sheet holds (`sheets` 0), or so many (`count`) of it that no sheet was found for.

    What would do: a sheet of at least `needs`, or `sheets` more sheets of that size.
    """

    piece: int
    count: int
    short_by: Fraction
    needs: tuple[Fraction, Fraction]
    sheets: int


@dataclass(frozen=True)
class SheetProof:
    """Why no plan is cheaper: worths of the pieces `sizes` (with kerf, in steps of `step`); see
    `sheet_bounds`.

    With `counted`, all layouts that a cheaper plan could use were counted out as well.
    """

    step: Fraction
    sizes: tuple[tuple[int, int], ...]
    worths: tuple[int, ...]
    grain: tuple[int, int]
    counted: bool


@dataclass(frozen=True)
class SheetPlan:
    """A plan, or (with `shortages`) none. `bound` <= the cost of every guillotine plan; `proved` when
    equal.
    """

    sheets: tuple[CutSheet, ...]
    cost: Fraction
    bound: Fraction
    proved: bool
    proof: SheetProof | None = None
    shortages: tuple[SheetShortage, ...] = ()

    @property
    def gap(self) -> Fraction:
        """By how much of the bound the plan may be dearer than the cheapest (0 when proved)."""
        return (self.cost - self.bound) / self.bound if self.bound else Fraction(0)


@dataclass(frozen=True)
class SheetSteps:
    """A job in whole steps and the way back: `members[i]` are the places of the pieces of job size i."""

    job: SheetJob
    members: tuple[tuple[int, ...], ...]
    step: Fraction
    price_step: Fraction
    kerf: Fraction
    trim: Fraction
    breaking: BreakDown | None = None


def in_steps(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    kerf: Fraction,
    trim: Fraction,
    stages: int | None = None,
    breaking: BreakDown | None = None,
) -> SheetSteps:
    """Scale a problem to whole numbers, exactly; pieces of one size and freedom to turn become one."""
    sizes = [*(side for s in stock for side in (s.width, s.height))]
    sizes += [side for p in pieces for side in (p.width, p.height)]
    limits = [] if breaking is None else [breaking.longest + kerf, breaking.allowance]
    per_unit = whole_steps([kerf, trim, *sizes, *limits])
    members: dict[tuple[int, int, bool], list[int]] = {}
    for place, piece in enumerate(pieces):
        wide, high = (int((side + kerf) * per_unit) for side in (piece.width, piece.height))
        turns = piece.turns and wide != high
        if piece.count > 0:
            key = (max(wide, high), min(wide, high), True) if turns else (wide, high, False)
            members.setdefault(key, []).append(place)
    rooms = [tuple(int((side - 2 * trim + kerf) * per_unit) for side in (s.width, s.height)) for s in stock]
    step = common_step(
        [side for key in members for side in key[:2]]
        + [side for room in rooms for side in room]
        + [int(limit * per_unit) for limit in limits]
    )
    longest, allowance = (int(limit * per_unit) // step for limit in limits) if limits else (None, 0)
    keys = sorted(members, key=lambda key: (-key[0] * key[1], key))
    price_unit = whole_steps([s.price for s in stock])
    price_step = common_step([int(s.price * price_unit) for s in stock])
    job = SheetJob(
        tuple((key[0] // step, key[1] // step) for key in keys),
        tuple(key[2] for key in keys),
        tuple(sum(pieces[place].count for place in members[key]) for key in keys),
        tuple((max(0, room[0] // step), max(0, room[1] // step)) for room in rooms),
        tuple(int(s.price * price_unit) // price_step for s in stock),
        tuple(s.limit for s in stock),
        stages,
        longest,
        allowance,
    )
    return SheetSteps(
        job,
        tuple(tuple(members[key]) for key in keys),
        Fraction(step, per_unit),
        Fraction(price_step, price_unit),
        kerf,
        trim,
        breaking,
    )


def plan_sheets(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    *,
    kerf: Fraction,
    trim: Fraction,
    effort: Effort,
    stages: int | None = None,
    breaking: BreakDown | None = None,
) -> SheetPlan:
    """Plan the cuts; with `stages` (2 or more), there are so many runs of cuts in one direction at most. With
    `breaking`, sheets are broken down first where they are too long for the fence.

    The same problem and effort give the same plan on every machine.
    """
    scaled = in_steps(stock, pieces, kerf, trim, stages, breaking)
    if not scaled.job.pieces:
        return SheetPlan((), Fraction(0), Fraction(0), True)
    too_large = _too_large(stock, pieces, trim)
    if too_large:
        return _no_plan(too_large)
    result = search(scaled.job, effort)
    if result.cuts is None:
        return _no_plan(_too_few(scaled, stock))
    sheets = _sheets(scaled, pieces, result.cuts)
    cost = sum((stock[sheet.stock].price for sheet in sheets), Fraction(0))
    bound = min(cost, result.bound * scaled.price_step)
    proof = SheetProof(scaled.step, scaled.job.pieces, result.proof.worths, result.grain, result.counted)
    return SheetPlan(sheets, cost, bound, cost == bound, proof)


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


def _too_few(scaled: SheetSteps, stock: Sequence[SheetStock]) -> list[SheetShortage]:
    """Pieces that found no sheet: those on extra sheets of the largest size."""
    job = scaled.job
    largest = max((s for s in range(len(stock)) if job.limits[s] != 0), key=lambda s: job.areas.capacities[s])
    wider = SheetJob(
        job.pieces,
        job.turns,
        job.demands,
        (*job.sheets, job.sheets[largest]),
        (*(1 for _ in stock), 1 + sum(job.demands)),
        (*job.limits, None),
        job.stages,
        job.longest,
        job.allowance,
    )
    result = search(wider, Effort(EFFORT_PER_SECOND))
    extra = [cut for cut in result.cuts or () if cut.stock == len(stock)]
    sheets = sum(cut.times for cut in extra)
    size = (stock[largest].width, stock[largest].height)
    shortages = []
    for index, members in enumerate(scaled.members):
        count = sum(cut.counts[index] * cut.times for cut in extra)
        if count:
            area = count * job.pieces[index][0] * job.pieces[index][1] * scaled.step**2
            shortages.append(SheetShortage(members[0], count, area, size, sheets))
    return shortages


def _sheets(
    scaled: SheetSteps, pieces: Sequence[SheetPiece], cuts: Sequence[SheetCut]
) -> tuple[CutSheet, ...]:
    """The sheets in the given unit; the fullest first, sheets that are cut alike together."""
    areas = scaled.job.areas
    queues = [[place for place in members for _ in range(pieces[place].count)] for members in scaled.members]
    order = sorted(
        cuts, key=lambda cut: (areas.capacities[cut.stock] - areas.used(cut.counts), cut.stock, cut.counts)
    )
    result = []
    for cut in order:
        for _ in range(cut.times):
            tree = _tree(scaled, pieces, cut.layout, (0, 0), (0, True), queues)
            assert tree is not None
            result.append(CutSheet(cut.stock, tree))
    return tuple(result)


def _tree(
    scaled: SheetSteps,
    pieces: Sequence[SheetPiece],
    layout: Layout,
    corner: tuple[int, int],
    before: tuple[int, bool],
    queues: list[list[int]],
) -> CutTree | None:
    """A layout in the given unit. `before`: the stage and direction of the cut that made this part."""
    step, kerf = scaled.step, scaled.kerf
    x, y = (at * step + scaled.trim for at in corner)
    area = Area(x, y, layout.width * step - kerf, layout.height * step - kerf)
    if isinstance(layout, Leaf):
        if layout.piece < 0:
            return CutTree(area) if area.width > 0 and area.height > 0 else None
        place = queues[layout.piece].pop(0)
        lies = (area.width, area.height) != (pieces[place].width, pieces[place].height)
        return CutTree(area, PlacedPiece(place, area, lies))
    stage = before[0] + (before[0] == 0 or before[1] is not layout.upright)
    setting = layout.at * step - kerf
    at = (x if layout.upright else y) + setting
    limit = scaled.breaking
    by_track = limit is not None and max(area.width, area.height) > limit.longest
    cut = SawCut(area, layout.upright, at, stage, setting, by_track)
    inside = (stage, layout.upright)
    over = (corner[0] + layout.at, corner[1]) if layout.upright else (corner[0], corner[1] + layout.at)
    first = _tree(scaled, pieces, layout.first, corner, inside, queues)
    second = _tree(scaled, pieces, layout.second, over, inside, queues)
    return CutTree(area, None, cut, first, second)
