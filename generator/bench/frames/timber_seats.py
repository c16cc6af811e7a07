"""Coach screws of the plates below, set aside where they would meet a bolt, its nut or a mortise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product

from generator.bench.box_body import about
from generator.bench.frames.facts import Hold, Point, Seat
from generator.bench.frames.timber_bodies import cut_away
from generator.bench.piece import TENONS, Part
from generator.calculators.bodies import Block
from generator.calculators.wood_joints import WOOD
from generator.geometry import AXES
from generator.provenance import constant

#: Steps in which a screw is moved (mm), and how many across and along its timber. Common practice, no source.
STEP = Fraction(5)
ACROSS, ALONG = 4, 16
_MOVES = sorted(
    product(range(-ALONG, ALONG + 1), range(-ACROSS, ACROSS + 1)),
    key=lambda move: (abs(move[0]) + abs(move[1]), abs(move[0]), -move[0], -move[1]),
)
#: From the axis of a coach screw to the edge and the end of its timber, in diameters. Common practice, no source.
BESIDE_SCREW = constant(2, "from a coach screw to the edge of its timber in diameters", unit="")
FROM_END = constant(4, "from a coach screw to the end of its timber in diameters", unit="")


def clear_seat(seat: Seat, members: Sequence[Part], middle: Point) -> Seat:
    """The seat with each of its screws where it meets nothing in its timber; one that finds no place stays.

    They move toward the frame's `middle` first, so that seats which mirror each other stay so.
    """
    by_mark = {part.mark: part for part in members}
    holds: list[Hold] = []
    for hold in seat.holds:
        part = by_mark.get(hold.member)
        holds.append(hold if part is None else _clear(hold, part, seat, holds, middle))
    return replace(seat, holds=tuple(holds))


def _clear(hold: Hold, part: Part, seat: Seat, before: Sequence[Hold], middle: Point) -> Hold:
    voids = [cut_away(part, each) for each in part.operations if each.op not in TENONS]
    taken = [each.at for each in before if each.member == hold.member]
    for moved in _places(hold, part, seat, middle):
        screw = _screw(moved, part, seat)
        apart = all(_far(moved.at, at, seat.thread.diameter * 4) for at in taken)
        if apart and not any(_meet(screw, each) for each in voids):
            return moved
    return hold


def _places(hold: Hold, part: Part, seat: Seat, middle: Point) -> Iterator[Hold]:
    """Where the screw could be, the nearest first: across its timber to either side, then along it too."""
    run = 0 if part.along == "x" else 1
    edge, end = seat.thread.diameter * BESIDE_SCREW, seat.thread.diameter * FROM_END
    plate, timber = (seat.x, seat.y)[run], part.shoulders.span(part.along)
    side, rim = part.box.span("xy"[1 - run]), seat.thread.clearance * Fraction(3, 2)
    inward = [1 if at < half else -1 for at, half in zip(hold.at, middle, strict=True)]
    for along, across in _MOVES:
        at = [*hold.at]
        at[run] += along * STEP * inward[run]
        at[1 - run] += across * STEP * inward[1 - run]
        on_plate = along == 0 or plate.low + rim <= at[run] <= plate.high - rim
        in_wood = timber.low + end <= at[run] <= timber.high - end
        if on_plate and in_wood and side.low + edge <= at[1 - run] <= side.high - edge:
            yield replace(hold, at=(at[0], at[1]))


def _screw(hold: Hold, part: Part, seat: Seat) -> Block:
    """The hole of a screw with wood about it."""
    assert seat.by.pilot is not None
    size, depth = seat.by.pilot
    reach = float(size / 2 + WOOD)
    x, y = (about(float(at), reach) for at in hold.at)
    low = float(part.box.z.low)
    return (x[0], y[0], low, x[1], y[1], low + float(depth) + float(WOOD))


def _meet(one: Block, other: Block) -> bool:
    return all(one[i] < other[i + 3] and other[i] < one[i + 3] for i in range(len(AXES)))


def _far(one: tuple[Fraction, Fraction], other: tuple[Fraction, Fraction], least: Fraction) -> bool:
    return any(abs(a - b) >= least for a, b in zip(one, other, strict=True))
