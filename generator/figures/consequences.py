"""What a piece of another size does to the pieces about it: found by where they are, not by a list of cases.

Along a bar, what is beyond its far end comes nearer by what the bar lacks. Whatever reaches from before that end to
what has moved is held there by tongues, by a gap or by being a bar of the same length.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.as_built import Held, held_by_tongues, moved
from generator.calculators.tolerances import nearest_general_tolerance
from generator.figures.rows.record import Following
from generator.geometry import AXES, FACES, Span

#: What ends within this (mm) of another piece is held by it or is in its way.
NEAR = Fraction(25)
#: Bars that are to be of one length. Common practice, no source.
ALIKE = Fraction(1, 10)
#: What is cut when the frame stands, to the measured bay.
FOLLOW_THE_BAY = (Role.DRAWER_SIDE, Role.DRAWER_END, Role.DRAWER_BOTTOM, Role.TOTE_RUNNER)


def held(bench: Bench, part: Part, axis: str) -> Held:
    """How a board is held along an axis: by its tongues, else by the gaps to its neighbours."""
    fit = part.fit
    captured = sum(face in part.tongues for face in FACES[axis])
    if fit is not None and captured:
        shoulder = fit.rabbet_length - fit.tongue if fit.needs_rabbet else fit.bottom_clearance
        return held_by_tongues(captured, fit.tongue, fit.bottom_clearance, shoulder)
    gaps = [_gap(bench, part, axis, end) for end in (0, 1)]
    free = [gap for gap in gaps if gap is not None]
    play = sum(free, Fraction(0)) if len(free) == 2 else Fraction(0)
    return Held(play, nearest_general_tolerance(part.box.span(axis).size))


def _gap(bench: Bench, part: Part, axis: str, end: int) -> Fraction | None:
    """The gap from one end of a piece to the nearest that is in its way; None when nothing is near."""
    return min(_gaps(part, axis, end, bench.parts), default=None)


def _gaps(part: Part, axis: str, end: int, others: tuple[Part, ...]) -> Iterator[Fraction]:
    mine = part.box.span(axis)
    for other in others:
        theirs = other.box.span(axis)
        gap = theirs.low - mine.high if end else mine.low - theirs.high
        if other is not part and 0 <= gap < NEAR and _faces(part, other, axis):
            yield gap


def _faces(part: Part, other: Part, axis: str) -> bool:
    return all(part.box.span(across).overlap(other.box.span(across)) > 0 for across in AXES if across != axis)


def following(
    bench: Bench, part: Part, off: Fraction, actual: Mapping[str, Fraction], states: Mapping[str, str]
) -> tuple[Following, ...]:
    """What follows from a piece that is `off` mm longer than planned along its first size.

    `actual` are the lengths of bars that were cut, `states` how far each piece is.
    """
    if part.is_bar:
        return tuple(_of_bar(bench, part, off, actual, states))
    return tuple(_of_board(bench, part, off, states))


def _of_bar(
    bench: Bench, bar: Part, off: Fraction, actual: Mapping[str, Fraction], states: Mapping[str, str]
) -> Iterator[Following]:
    axis = bar.along
    end = bar.box.span(axis).high
    ends = [joint.crossing for joint in bench.joints if joint.member == bar.mark]
    if ends:
        what = f"{'gap at' if off < 0 else 'pushed apart by'} the end of {bar.mark}"
        yield Following(" and ".join(dict.fromkeys(ends)), what, -abs(off), False, "")
    beyond = tuple(other for other in bench.parts if other.box.span(axis).low >= end - NEAR)
    for other in bench.parts:
        span = other.box.span(axis)
        if other is bar or span.low >= end - NEAR or span.high <= end - NEAR:
            continue
        state = states.get(other.mark, "to cut")
        if other.is_bar:
            yield from _twin(bar, other, off, actual, state)
        elif other.role is Role.TOP:
            yield Following(other.mark, "is further outside the frame by", abs(off), True, state)
        elif (
            other.role not in FOLLOW_THE_BAY and (room := _room(other, axis, off, beyond, bench)) is not None
        ):
            left = moved(room, off)
            what = "space in its slots and at its shoulders" if other.tongues else "space at its ends"
            yield Following(other.mark, what, left, left >= 0, state, _size(other, axis) + off)
    if axis == "x":
        yield from _bays(bench, bar, off)


def _twin(
    bar: Part, other: Part, off: Fraction, actual: Mapping[str, Fraction], state: str
) -> Iterator[Following]:
    """A bar between the same two planes must be as long."""
    if other.along != bar.along or other.box.span(bar.along) != bar.box.span(bar.along):
        return
    apart = abs(actual.get(other.mark, other.length) - (bar.length + off))
    yield Following(
        other.mark, f"must be as long as {bar.mark}", -apart, apart <= ALIKE, state, bar.length + off
    )


def _room(part: Part, axis: str, off: Fraction, beyond: tuple[Part, ...], bench: Bench) -> Held | None:
    """How a board is held between what stays and what moves; None when nothing that moves is in its way."""
    if FACES[axis][1] in part.tongues:
        return held(bench, part, axis)
    if off > 0 or axis not in (part.along, part.across):
        return None  # more room harms nothing that is free
    at_end = min(_gaps(part, axis, 1, beyond), default=None)
    if at_end is None:
        return None
    at_start = _gap(bench, part, axis, 0)
    return Held(at_end + (at_start or 0), nearest_general_tolerance(_size(part, axis)))


def _size(part: Part, axis: str) -> Fraction:
    return part.box.span(axis).size


def _bays(bench: Bench, rail: Part, off: Fraction) -> Iterator[Following]:
    """The last bay of each zone beside the rail takes the difference: marks are set out from the left end."""
    row: Span = rail.box.y
    for zone in bench.layout.zones:
        beside = zone.y.low == row.high or zone.y.high == row.low
        for bay in zone.bays:
            if beside and bay.x.high == rail.box.x.high:
                what = f"becomes {'narrower' if off < 0 else 'wider'} at this rail; measure it before you fill it"
                yield Following(f"bay {bay.name}", what, off, True, "", measure=True)


def _of_board(bench: Bench, board: Part, off: Fraction, states: Mapping[str, str]) -> Iterator[Following]:
    """The other end, or side, of a drawer box must be as long; boards in slots and gaps are judged by themselves."""
    if board.role not in (Role.DRAWER_END, Role.DRAWER_SIDE):
        return
    for other in bench.of(board.role):
        if other is not board and other.place == board.place:
            state = states.get(other.mark, "to cut")
            what = f"must be as long as {board.mark}"
            yield Following(other.mark, what, -abs(off), False, state, board.length + off)
