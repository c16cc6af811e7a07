"""Boards that differ, in whole steps of a common size, so that all sums are exact and fast; what they hold at most."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.cutting.sheets.model import SheetPiece, SheetStock

Rectangle = tuple[int, int, int, int]
"""Low x, low y, high x, high y in steps."""


@dataclass(frozen=True)
class BoardJob:
    """A problem in steps. A stage limit of 0 is none."""

    rooms: tuple[Rectangle, ...]
    defects: tuple[tuple[Rectangle, ...], ...]
    prices: tuple[Fraction, ...]
    limits: tuple[int | None, ...]
    pieces: tuple[tuple[int, int, bool], ...]
    kerf: int
    stages: int


def common_step(
    stock: Sequence[SheetStock], pieces: Sequence[SheetPiece], kerf: Fraction, trim: Fraction
) -> Fraction:
    """The largest length of which all sizes are whole multiples."""
    lengths = [kerf, trim]
    for piece in pieces:
        lengths += [piece.width, piece.height]
    for sheet in stock:
        lengths += [sheet.width, sheet.height]
        for area in sheet.defects:
            lengths += [area.x, area.y, area.width, area.height]
    return Fraction(1, math.lcm(*(length.denominator for length in lengths)))


def in_whole_steps(
    stock: Sequence[SheetStock],
    pieces: Sequence[SheetPiece],
    kerf: Fraction,
    trim: Fraction,
    stages: int | None,
    step: Fraction,
) -> BoardJob:
    """The same in steps, the edges of the boards trimmed off."""

    def whole(length: Fraction) -> int:
        return length.numerator * (step.denominator // length.denominator)

    edge = whole(trim)
    return BoardJob(
        tuple((edge, edge, whole(each.width) - edge, whole(each.height) - edge) for each in stock),
        tuple(
            tuple(
                (whole(d.x), whole(d.y), whole(d.x) + whole(d.width), whole(d.y) + whole(d.height))
                for d in each.defects
            )
            for each in stock
        ),
        tuple(each.price for each in stock),
        tuple(each.limit for each in stock),
        tuple((whole(each.width), whole(each.height), each.turns) for each in pieces),
        whole(kerf),
        stages or 0,
    )


def size_of(area: Rectangle) -> int:
    """Its area in steps each way; 0 where it is turned inside out."""
    return max(0, area[2] - area[0]) * max(0, area[3] - area[1])


def clear_wood(job: BoardJob, place: int) -> int:
    """The wood of a board without its defects; where two of them overlap, too little of it."""
    room = job.rooms[place]
    lost = [
        (max(d[0], room[0]), max(d[1], room[1]), min(d[2], room[2]), min(d[3], room[3]))
        for d in job.defects[place]
    ]
    return max(0, size_of(room) - sum(map(size_of, lost)))


def least_cost(job: BoardJob, wanted: Sequence[int]) -> Fraction:
    """No plan is cheaper: the pieces, each with a kerf, as if they were cut from the cheapest clear wood.

    Where all boards cost the same, a whole number of the largest.
    """
    need = sum((job.pieces[piece][0] + job.kerf) * (job.pieces[piece][1] + job.kerf) for piece in wanted)
    held = [place for place in range(len(job.rooms)) if job.limits[place] != 0 and _holds(job, place, wanted)]
    boards = [(job.prices[place], _most_clear(job, place), job.limits[place]) for place in held]
    whole = len({price for price, _, _ in boards}) == 1
    bound = Fraction(0)
    for price, area, limit in sorted(boards, key=lambda each: (each[0] / each[1], -each[1])):
        if need <= 0:
            break
        number = Fraction(need, area)
        if whole:
            number = Fraction(math.ceil(number))
        if limit is not None:
            number = min(number, Fraction(limit))
        bound += price * number
        need -= math.floor(number * area)
    return bound


def _holds(job: BoardJob, place: int, wanted: Sequence[int]) -> bool:
    """Whether a board has room for any of the pieces."""
    x, y, far_x, far_y = job.rooms[place]
    return any(
        (wide <= far_x - x and high <= far_y - y) or (turns and high <= far_x - x and wide <= far_y - y)
        for wide, high, turns in (job.pieces[piece] for piece in set(wanted))
    )


def _most_clear(job: BoardJob, place: int) -> int:
    """No less than what a board has for pieces and their kerfs: it loses the largest of its defects alone.

    A kerf may be in a defect, so that loses a kerf each way.
    """
    x, y, far_x, far_y = job.rooms[place]
    lost = (
        size_of((max(d[0], x) + job.kerf, max(d[1], y) + job.kerf, min(d[2], far_x), min(d[3], far_y)))
        for d in job.defects[place]
    )
    return (far_x - x + job.kerf) * (far_y - y + job.kerf) - max(lost, default=0)
