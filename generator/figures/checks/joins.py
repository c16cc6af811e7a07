"""Checks of benches that are bolted together which need both: what opens, how they roll, a bench that is dragged."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import NamedTuple

from generator.bench.law import WORK, Law
from generator.bench.model import Bench
from generator.bench.neighbour import Neighbour
from generator.calculators.joining import joining_pull
from generator.calculators.swing import Outline, first_contact, rectangle
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.checks.swings import LEAST
from generator.figures.joins import ComesOut, opened, outline_of
from generator.figures.tightening import nut_force
from generator.provenance import inexact

PLACES = "where each bench is, and which bay is filled with what, is the choice of their makers"

OPENS = Law(
    Code.JOIN_OPENS, "warning", "Nothing opens into the other bench", "Something opens into the other bench",
    "Move the other bench along this side with `at`, or leave this bay open.",
    "It does not open, or it hits the other bench.", PLACES, quantity="how far it opens",
)  # fmt: skip
CORNER = Law(
    Code.JOIN_CORNER, "note", "What opens in both benches never meets",
    "Things of both benches meet when both are open",
    "Open one at a time.", "They dent each other in the corner between the benches.", WORK,
)  # fmt: skip
SWIVEL = Law(
    Code.JOIN_SWIVEL, "note", "What the benches roll on never meets", "What the benches roll on meets at the joint",
    "Push the benches together in the direction of the joint, and lock the brakes before you bolt them.",
    "Where both turn towards each other, they keep the benches apart.", WORK,
    quantity="distance of two supports at the joint",
)  # fmt: skip
DRAG = Law(
    Code.JOIN_DRAG, "warning", "The joint holds when one loaded bench drags the other",
    "The joint may not hold when one loaded bench drags the other",
    "Use more bolts or larger washers, and part the benches before you move one.",
    "The washers sink in, or the slots open, and the joint works loose.",
    "bolts and washers of both specs change together", quantity="pull on the bolt that is pulled most",
)  # fmt: skip


def join_checks(bench: Bench, loaded: float) -> Iterator[CheckResult]:
    """Each other bench; `loaded` is the mass of this one with all loads (kg)."""
    for each in bench.neighbours:
        yield from _open(bench, each)
        yield from _rolling(bench, each)
        yield from _dragged(bench, each, loaded)


def _open(bench: Bench, each: Neighbour) -> Iterator[CheckResult]:
    """What opens here against the frame of the other bench, and against what opens there."""
    low_x, low_y, high_x, high_y = map(float, outline_of(each))
    other = ((low_x, low_y), (high_x, high_y))
    theirs = [
        (thing.name, tuple(tuple(each.turned.flat(*point) for point in area) for area in thing.areas))
        for thing in opened(each.other)
    ]
    path = ("join", each.index, "side")
    for mine in opened(bench):
        found = _free(mine, other)
        inside = found.value < found.limit
        turns = mine.turning is not None
        yield check_result(
            OPENS, not inside, f"{mine.name}, {each.join.side} side", path, value=found.value, limit=found.limit,
            unit="°" if turns else "mm", sense="at least",
            severity="error" if inside and not (turns and found.value >= LEAST) else "",
        )  # fmt: skip
        for name, areas in theirs if not inside else ():
            if any(_overlap(_bounds(a), _bounds(b)) for a in mine.areas for b in areas):
                where = f"{mine.name} and the other bench's {name}"
                yield check_result(CORNER, False, where, path)


class _Free(NamedTuple):
    """How far something opens, and how far it must: degrees of a door, mm of what is pulled out."""

    value: float
    limit: float


def _free(thing: ComesOut, other: Bounds) -> _Free:
    """How far it opens before it meets the other frame."""
    (low_x, low_y), (high_x, high_y) = other
    if thing.turning is not None:
        whole = thing.turning.angle
        angle = first_contact(thing.turning, rectangle((low_x, high_x), (low_y, high_y), TOUCH))
        return _Free(whole if angle is None else angle, whole)
    own = _bounds(thing.areas[0])
    out = own[1][1] - own[0][1]
    if not _overlap(own, other):
        return _Free(out, out)
    # it comes out to the front, towards low Y, or to the rear
    return _Free(max(0.0, own[1][1] - high_y if own[0][1] < 0 else low_y - own[0][1]), out)


Bounds = tuple[tuple[float, float], tuple[float, float]]


def _bounds(area: Outline) -> Bounds:
    xs, ys = zip(*area, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))


#: What reaches less into each other (mm) only touches.
TOUCH = 0.02


def _overlap(one: Bounds, two: Bounds) -> bool:
    return all(min(one[1][i], two[1][i]) - max(one[0][i], two[0][i]) > TOUCH for i in (0, 1))


def _rolling(bench: Bench, each: Neighbour) -> Iterator[CheckResult]:
    """The circles that the swivels of both benches sweep."""
    stands = (bench.stand, each.other.stand)
    if any(stand.rolls_on is None or stand.inward is None for stand in stands):
        return
    reach = [float((stand.inward or 0) + (stand.rolls_on or 0) / 2) for stand in stands]
    near = min(
        hypot(float(x) - a, float(y) - b)
        for x, y in bench.stand.points
        for a, b in (each.turned.flat(float(p), float(q)) for p, q in each.other.stand.points)
    )
    yield check_result(
        SWIVEL, near >= sum(reach), f"{each.join.side} side", ("join", each.index, "side"),
        value=near, limit=sum(reach), unit="mm", sense="at least",
    )  # fmt: skip


def _dragged(bench: Bench, each: Neighbour, loaded: float) -> Iterator[CheckResult]:
    if not each.bolts:
        return
    pulled = joining_pull(
        loaded, inexact(bench.spec.room.grip), len(each.bolts), inexact(each.card.washer[0]),
        inexact(each.hole), nut_force(bench) if each.slotted else None,
    )  # fmt: skip
    yield check_result(
        DRAG, pulled.pull <= pulled.may_bear, f"{each.join.side} side", ("join", each.index, "bolts"),
        value=pulled.pull, limit=pulled.may_bear, unit="N",
    )  # fmt: skip
