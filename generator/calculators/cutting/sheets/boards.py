"""Boards that differ: each has its own size, and knots, cracks or sapwood that no piece may have.

A board is cut from edge to edge like a sheet. Pieces are laid into the free parts one after the other, largest first,
beside what is already there or beside a defect, so that a strip with the defect falls off by a cut of its own. Many
orders of pieces and boards are tried; the cheapest plan is kept, and of these the one that takes least wood.

Lengths are whole steps here: see `board_job`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.board_job import (
    BoardJob,
    Rectangle,
    clear_wood,
    common_step,
    in_whole_steps,
    least_cost,
    size_of,
)
from generator.calculators.cutting.sheets.model import (
    Area,
    CutSheet,
    CutTree,
    PlacedPiece,
    SawCut,
    SheetPiece,
    SheetPlan,
    SheetShortage,
    SheetStock,
)

#: Most orders that are tried, and units of work to look at one place for a piece. Measured, no source.
MOST_TRIALS, A_PLACE = 400, 12


@dataclass
class _BoardPart:
    """A part of a board: free, a piece, or cut in two. `stage` and `upright` are those of the cut that made it."""

    area: Rectangle
    stage: int = 0
    upright: bool = True
    piece: tuple[int, bool] | None = None
    cut: tuple[bool, int, int] | None = None
    """Upright, at, stage."""
    first: _BoardPart | None = None
    second: _BoardPart | None = None


@dataclass
class _Trial:
    """Boards that are being cut: the place of the stock, its tree, its free parts; and the pieces left over."""

    boards: list[tuple[int, _BoardPart, list[_BoardPart]]] = field(default_factory=list)
    left: list[int] = field(default_factory=list)


def plan_boards(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    *,
    kerf: Fraction,
    trim: Fraction,
    budget: WorkBudget,
    stages: int | None = None,
) -> SheetPlan:
    """Plan the cuts of boards with defects: no piece has any of one.

    With `stages` there are at most this many runs of cuts in one direction. The bound is that of the clear wood alone,
    so that few plans are proved. The same problem and budget give the same plan on every machine.
    """
    step = common_step(stock, pieces, kerf, trim)
    job = in_whole_steps(stock, pieces, kerf, trim, stages, step)
    wanted = [place for place, piece in enumerate(pieces) for _ in range(piece.count)]
    if not wanted:
        return SheetPlan((), Fraction(0), Fraction(0), True)
    best = _search(job, wanted, budget)
    if best.left:
        return SheetPlan((), Fraction(0), Fraction(0), False, _shortages(stock, pieces, best.left, trim))
    sheets = tuple(CutSheet(place, _tree(root, step, kerf)) for place, root, _ in best.boards)
    cost = sum((stock[sheet.stock].price for sheet in sheets), Fraction(0))
    bound = min(cost, least_cost(job, wanted))
    return SheetPlan(sheets, cost, bound, cost == bound)


def _search(job: BoardJob, wanted: Sequence[int], budget: WorkBudget) -> _Trial:
    """The best of many orders: first the plain ones, then the best of them with a few pieces and boards exchanged."""
    areas = [wide * high for wide, high, _ in job.pieces]
    plain = [
        sorted(wanted, key=lambda p: (-job.pieces[p][0], -job.pieces[p][1])),
        sorted(wanted, key=lambda p: (-job.pieces[p][1], -job.pieces[p][0])),
        sorted(wanted, key=lambda p: -areas[p]),
    ]
    clear = [clear_wood(job, place) for place in range(len(job.rooms))]
    value = [job.prices[place] / max(1, clear[place]) for place in range(len(clear))]
    sources = [
        sorted(range(len(clear)), key=lambda b: (value[b], clear[b])),
        sorted(range(len(clear)), key=lambda b: (value[b], -clear[b])),
        sorted(range(len(clear)), key=lambda b: -clear[b]),
    ]
    best: tuple[tuple[Fraction, ...], _Trial, list[int], list[int]] | None = None
    turn = 1
    for trial in range(MOST_TRIALS):
        if best is not None and budget.spent:
            break
        if trial < 18:
            order, source, rule = list(plain[trial % 3]), list(sources[trial // 3 % 3]), trial // 9
        else:
            assert best is not None
            order, source, rule = list(best[2]), list(best[3]), trial % 2
            for _ in range(1 + trial % 3):
                turn = (1103515245 * turn + 12345) % 2**31  # the usual generator: the same numbers everywhere
                one, other = turn // 7 % len(order), turn // 4099 % len(order)
                order[one], order[other] = order[other], order[one]
            if trial % 5 == 0:
                one, other = turn // 11 % len(source), turn // 257 % len(source)
                source[one], source[other] = source[other], source[one]
        found = _laid(job, order, source, rule, budget)
        rank = _rank(job, found, areas)
        if best is None or rank < best[0]:
            best = (rank, found, order, source)
    assert best is not None
    return best[1]


def _rank(job: BoardJob, found: _Trial, areas: Sequence[int]) -> tuple[Fraction, ...]:
    """What is not placed, what it costs, the wood of the boards that it takes."""
    left = sum(areas[piece] for piece in found.left)
    cost = sum((job.prices[place] for place, _, _ in found.boards), Fraction(0))
    wood = sum(size_of(job.rooms[place]) for place, _, _ in found.boards)
    return (Fraction(left), cost, Fraction(wood))


def _laid(
    job: BoardJob, order: Sequence[int], source: Sequence[int], rule: int, budget: WorkBudget
) -> _Trial:
    """All pieces in this order: each into the free part that it fills best, else into the next board that holds it."""
    trial = _Trial()
    used = [0] * len(job.rooms)
    for piece in order:
        best = None
        for place, _, free in trial.boards:
            for node in free:
                for spot in _spots(job, place, node, piece, budget):
                    key = (spot[0][rule], spot[0][1 - rule], spot[1:])
                    if best is None or key < best[0]:
                        best = (key, spot, place, node, free)
        if best is not None:
            _, spot, _, node, free = best
            free.remove(node)
            free += _cut(job, node, piece, spot)
            continue
        for place in source:
            limit = job.limits[place]
            if limit is not None and used[place] >= limit:
                continue
            root = _BoardPart(job.rooms[place])
            spots = list(_spots(job, place, root, piece, budget))
            if spots:
                spot = min(spots, key=lambda s: (s[0][rule], s[0][1 - rule], s[1:]))
                used[place] += 1
                trial.boards.append((place, root, _cut(job, root, piece, spot)))
                break
        else:
            trial.left.append(piece)
    return trial


_Spot = tuple[tuple[int, int], int, int, bool, bool]
"""Room left beside it (across, along), x, y, whether it is turned, whether the part is crossed before it is ripped."""


def _spots(job: BoardJob, place: int, node: _BoardPart, piece: int, budget: WorkBudget) -> Iterator[_Spot]:
    """Where a piece can lie in a free part: in its corner, or behind a defect, clear of all of them."""
    low_x, low_y, high_x, high_y = node.area
    wide, high, turns = job.pieces[piece]
    near = [d for d in job.defects[place] if _meet(d, node.area)]
    for turned in (False, True) if turns and wide != high else (False,):
        length, width = (high, wide) if turned else (wide, high)
        if length > high_x - low_x or width > high_y - low_y:
            continue
        xs = {low_x, *(d[2] for d in near)}
        ys = {low_y, *(d[3] for d in near)}
        budget.spend(A_PLACE * len(xs) * len(ys))
        for x in xs:
            if x + length > high_x or low_x < x <= low_x + job.kerf:
                continue
            for y in ys:
                if y + width > high_y or low_y < y <= low_y + job.kerf:
                    continue
                own = (x, y, x + length, y + width)
                if any(_meet(d, own) for d in near):
                    continue
                room = (high_y - low_y - width + (y - low_y), high_x - low_x - length + (x - low_x))
                for crossed in (True, False):
                    if _stages(job, node, own, crossed):
                        yield (room, x, y, turned, crossed)


def _meet(one: Rectangle, other: Rectangle) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _needed(node: _BoardPart, own: Rectangle) -> tuple[bool, bool]:
    """Whether a piece needs a cut across the board, and one along it."""
    area = node.area
    return (own[0] > area[0] or own[2] < area[2], own[1] > area[1] or own[3] < area[3])


def _stages(job: BoardJob, node: _BoardPart, own: Rectangle, crossed: bool) -> bool:
    """Whether a piece is free within the stages that are allowed; only one way is given where both are the same."""
    across, along = _needed(node, own)
    if not (across and along) and not crossed:
        return False
    if not job.stages:
        return True
    stage, upright = node.stage, node.upright
    for way, needed in ((crossed, across if crossed else along), (not crossed, along if crossed else across)):
        if needed:
            stage += stage == 0 or upright is not way
            upright = way
    return stage <= job.stages


def _cut(job: BoardJob, node: _BoardPart, piece: int, spot: _Spot) -> list[_BoardPart]:
    """Cut a piece out of a free part; what is left of that is free."""
    _, x, y, turned, crossed = spot
    wide, high, _ = job.pieces[piece]
    length, width = (high, wide) if turned else (wide, high)
    free: list[_BoardPart] = []
    for upright in (crossed, not crossed):
        low, size = (x, length) if upright else (y, width)
        node = _out(node, upright, low, size, job.kerf, free)
    node.piece = (piece, turned)
    return free


def _out(
    node: _BoardPart, upright: bool, low: int, size: int, kerf: int, free: list[_BoardPart]
) -> _BoardPart:
    """The middle of a part between two cuts in one direction, each only where it is needed."""
    axis = 0 if upright else 1
    if low > node.area[axis]:
        before, behind = _halves(node, upright, low - kerf, kerf)
        assert behind is not None
        free.append(before)
        node = behind
    if low + size < node.area[axis + 2]:
        own, rest = _halves(node, upright, low + size, kerf)
        if rest is not None:
            free.append(rest)
        node = own
    return node


def _halves(node: _BoardPart, upright: bool, at: int, kerf: int) -> tuple[_BoardPart, _BoardPart | None]:
    """Both parts of a cut; the far one is None where the blade takes all of it."""
    stage = node.stage + (node.stage == 0 or node.upright is not upright)
    x, y, far_x, far_y = node.area
    near = (x, y, at, far_y) if upright else (x, y, far_x, at)
    rest = (at + kerf, y, far_x, far_y) if upright else (x, at + kerf, far_x, far_y)
    node.cut = (upright, at, stage)
    node.first = _BoardPart(near, stage, upright)
    node.second = _BoardPart(rest, stage, upright) if rest[2] > rest[0] and rest[3] > rest[1] else None
    return node.first, node.second


def _tree(node: _BoardPart, step: Fraction, kerf: Fraction) -> CutTree:
    """A cut board in the given unit."""
    x, y, far_x, far_y = (each * step for each in node.area)
    area = Area(x, y, far_x - x, far_y - y)
    if node.piece is not None:
        return CutTree(area, PlacedPiece(node.piece[0], area, node.piece[1]))
    if node.cut is None:
        return CutTree(area)
    upright, at, stage = node.cut[0], node.cut[1] * step, node.cut[2]
    cut = SawCut(area, upright, at, stage, at - (x if upright else y), False, kerf)
    first, second = (None if part is None else _tree(part, step, kerf) for part in (node.first, node.second))
    return CutTree(area, None, cut, first, second)


def _shortages(
    stock: Sequence[SheetStock], pieces: Sequence[SheetPiece], left: Sequence[int], trim: Fraction
) -> tuple[SheetShortage, ...]:
    """What found no place, and clear boards that would be enough."""
    found = []
    for place in sorted(set(left)):
        piece, count = pieces[place], left.count(place)
        needs = (piece.width + 2 * trim, piece.height + 2 * trim)
        lacks = min(
            (max(needs[0] - each.width, needs[1] - each.height) for each in stock if each.limit != 0),
            default=max(needs),
        )
        if piece.turns:
            lacks = min(lacks, min(max(needs[1] - each.width, needs[0] - each.height) for each in stock))
        found.append(SheetShortage(place, count, max(lacks, Fraction(0)), needs, 0 if lacks > 0 else count))
    return tuple(found)
