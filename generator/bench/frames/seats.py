"""Seats under a frame of slotted bars: a plate flush with its outside, bolted into two bars that cross there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.frames.facts import HeldBy, Hold, Point, Port, Seat
from generator.bench.joints import joining
from generator.bench.layout import Layout
from generator.bench.leg_room import over_leg_room
from generator.bench.piece import Joint, Part
from generator.bench.place import Place
from generator.calculators.fasteners import Thread
from generator.geometry import Span
from generator.provenance import constant, least
from generator.spec.load import LoadedSpec

#: Half the distance of two bolts in one slot (mm): of a plate in a corner, and of one in the middle of a side.
CORNER_BOLTS = constant(30, "half the distance of a corner plate's bolts")
MIDDLE_BOLTS = constant(50, "half the distance of a middle plate's bolts")
#: Half a nut along its slot, in thread diameters. Common practice, no source.
HALF_NUT = constant("5/4", "half a slot nut in thread diameters", unit="")
#: A port in a plate over an access hole is this much wider than the hole (mm).
PORT_PLAY = constant(4, "a port is wider than its access hole by")
#: For a key of 5 mm (mm).
USUAL_KEY_HOLE = Fraction(8)


def seat(
    loaded: LoadedSpec,
    layout: Layout,
    bars: Sequence[Part],
    joints: Sequence[Joint],
    where: tuple[Place, Point, Point],
    by: HeldBy,
    thread: Thread,
) -> Seat:
    """A plate under a corner, or under the bar that crosses at the middle of a long side.

    `where` is its place, the point that it carries, and its size.
    """
    place, point, size = where
    middle = place.end == "middle"
    x = _beside(point[0], size[0], layout.length, is_middle=middle)
    if place.lines:
        x = _at_post(_post(layout, place), point[0], size[0])
    y = _beside(point[1], size[1], layout.depth, is_middle=False)
    ports = (port for port in _ports(loaded, bars, joints) if _in(port.at, x, y))
    return Seat(x, y, tuple(_holds(layout, bars, place, point, thread.diameter)), by, thread, tuple(ports))


def _in(at: Point, x: Span, y: Span) -> bool:
    return x.low < at[0] < x.high and y.low < at[1] < y.high


def _post(layout: Layout, place: Place) -> Span:
    """The knee post that a stand is at."""
    low = (Fraction(0), *layout.lines)[place.lines[0] - 1]
    return Span(low, low + layout.section)


def _at_post(post: Span, at: Fraction, size: Fraction) -> Span:
    """Flush with the face of the post that leg room is at, and away from it."""
    return Span(post.high - size, post.high) if at < post.middle else Span(post.low, post.low + size)


def _beside(centre: Fraction, size: Fraction, total: Fraction, *, is_middle: bool) -> Span:
    if is_middle:
        return Span(centre - size / 2, centre + size / 2)
    return Span(Fraction(0), size) if centre < total / 2 else Span(total - size, total)


def _holds(
    layout: Layout, bars: Sequence[Part], place: Place, point: Point, diameter: Fraction
) -> Iterator[Hold]:
    """Two along the rail, two along the crossing bar. A middle plate's nut clears the rail that its slot ends on.

    In a corner of leg room no rail is above the plate: the end member holds all.
    """
    half, (x, y) = layout.section / 2, point
    front = y < layout.depth / 2
    crossing = {"left": half, "right": layout.length - half}.get(place.end, x)
    spread = across = CORNER_BOLTS
    clear = layout.section + diameter * HALF_NUT
    if place.end == "middle":
        room = (y if front else layout.depth - y) - clear
        spread = MIDDLE_BOLTS
        across = least(MIDDLE_BOLTS, room) if room >= CORNER_BOLTS else CORNER_BOLTS
    rail = half if front else layout.depth - half
    free = Span(clear, layout.length - clear)
    if place.lines:
        post = _post(layout, place)
        crossing = post.middle
        low, high = (free.low, post.high - clear) if x < post.middle else (post.low + clear, free.high)
        free = Span(low, high)
    if place.lines or not over_leg_room(layout, "front" if front else "back", x):
        for at in _pair(x, spread, free):
            yield Hold((at, rail), _bar_over(bars, at, rail))
    for at in _pair(y, across, Span(clear, layout.depth - clear)):
        yield Hold((crossing, at), _bar_over(bars, crossing, at))


def _pair(middle: Fraction, spread: Fraction, free: Span) -> tuple[Fraction, Fraction]:
    """Two bolts about the middle of what is carried, shifted to where a slot holds both."""
    if middle - spread < free.low:
        return free.low, free.low + 2 * spread
    if middle + spread > free.high:
        return free.high - 2 * spread, free.high
    return middle - spread, middle + spread


def _bar_over(bars: Sequence[Part], x: Fraction, y: Fraction) -> str:
    """Mark of the lying bar over a point of the underside; empty when there is none: a post's end has no slot."""
    for bar in bars:
        box = bar.box
        if (
            bar.along != "z"
            and box.z.low == 0
            and box.x.low <= x <= box.x.high
            and box.y.low <= y <= box.y.high
        ):
            return bar.mark
    return ""


def _ports(loaded: LoadedSpec, bars: Sequence[Part], joints: Sequence[Joint]) -> Iterator[Port]:
    """Access holes in the underside, with the member whose screw is behind."""
    by_mark = {bar.mark: bar for bar in bars}
    size = key_hole(loaded) + PORT_PLAY
    for joint in joints:
        crossing = by_mark[joint.crossing]
        if joint.face != "bottom" or crossing.box.z.low != 0:
            continue
        at = crossing.box.span(crossing.along).low + joint.at
        centre = {axis: crossing.box.span(axis).middle for axis in "xy"} | {crossing.along: at}
        yield Port((centre["x"], centre["y"]), size, joint.member)


def key_hole(loaded: LoadedSpec) -> Fraction:
    """The largest hole through which a key comes to the frame's joints (mm); without any, a usual one."""
    chosen = loaded.spec.frame.joints
    names = (chosen.default, chosen.long_rails_to_corner_posts, chosen.inner_post_tops)
    holes = [hole for name in names for hole in joining(loaded.goods, name).holes if hole.for_key]
    return max((hole.size for hole in holes), default=USUAL_KEY_HOLE)
