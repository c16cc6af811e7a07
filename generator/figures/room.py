"""The free floor that each side of the bench needs, with everything open and a person before it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Swing
from generator.bench.layout import bay_of
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.room import PERSON, needed_floor
from generator.figures.rows.room import Reach, RoomSide

SIDES = ("front", "rear", "left", "right")
#: The way of a door is followed in steps of so much (°).
STEP = 2


def room_sides(bench: Bench) -> tuple[RoomSide, ...]:
    """One row for each side whose free floor the spec says."""
    return tuple(
        _side(bench, side, free) for side in SIDES if (free := getattr(bench.spec.room, side)) is not None
    )


def _side(bench: Bench, side: str, free: Fraction) -> RoomSide:
    works = any(zone.opens == side for zone in bench.layout.zones)
    reaches = tuple(_reaches(bench, side))
    needed = needed_floor([(each.out, each.person) for each in reaches], works=works)
    furthest = max(reaches, key=lambda each: each.out + (PERSON if each.person else 0), default=None)
    if furthest is None or furthest.out + (PERSON if furthest.person else 0) < needed:
        return RoomSide(side, free, needed, "a person at work" if works else "nothing", reaches)
    before = ", open, and a person" if furthest.person else ", open"
    return RoomSide(side, free, needed, f"{furthest.name}{before}", reaches)


def _reaches(bench: Bench, side: str) -> Iterator[Reach]:
    """Everything that comes out at a side, from the edge of the top."""
    edge = _overhang(bench, side)
    for kind in FILLINGS:
        for fact in kind.sliding(bench):
            zone, bay = bay_of(bench.layout, fact.item.bay)
            if zone.opens == side:
                out = fact.travel + _before(bench, side, fact.item.bay) - edge
                yield Reach(fact.name, bay.x.low, bay.x.high, out, True)
        for swing in kind.swings(bench):
            if bench.layout.zones[int(swing.path[1])].opens == side:
                low, high = _extent(swing, 0)
                yield Reach(swing.name, low, high, swing.reach - edge, False)
            elif side in ("left", "right"):
                low, high = _extent(swing, 0)
                beyond = -low if side == "left" else high - bench.layout.length
                if beyond - edge > 0:
                    yield Reach(swing.name, *_extent(swing, 1), beyond - edge, False)


def _overhang(bench: Bench, side: str) -> Fraction:
    """How far the top reaches beyond the frame at a side (mm)."""
    (top, *_), plan = bench.of(Role.TOP), bench.layout
    found = {
        "front": -top.box.y.low,
        "rear": top.box.y.high - plan.depth,
        "left": -top.box.x.low,
        "right": top.box.x.high - plan.length,
    }
    return found[side]


def _before(bench: Bench, side: str, bay: str) -> Fraction:
    """How far the pulls of a bay are before the frame (mm)."""
    x, found = bay_of(bench.layout, bay)[1].x, [Fraction(0)]
    for kind in FILLINGS:
        for thing in kind.things(bench):
            if x.low <= (thing.low[0] + thing.high[0]) / 2 <= x.high:
                found.append(-thing.low[1] if side == "front" else thing.high[1] - bench.layout.depth)
    return max(found)


def _extent(swing: Swing, axis: int) -> tuple[Fraction, Fraction]:
    """From where to where it turns along X (0) or Y (1), to a tenth of a millimetre."""
    angles = [*range(0, int(swing.turning.angle), STEP), swing.turning.angle]
    places = [corner[axis] for angle in angles for corner in swing.turning.at(float(angle))]
    low, high = (Fraction(str(round(place, 1))) for place in (min(places), max(places)))
    return low, high
