"""Plates between frame and stand, each where the frame's seat has it and held as the seat says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from generator.bench.frames.facts import BuiltFrame, HeldBy, Point, Seat
from generator.bench.law import Case, Law, Verdict, said
from generator.bench.layout import Layout
from generator.bench.leg_room import face_of, knee_bays, knee_lines, over_leg_room
from generator.bench.piece import Operation, Part
from generator.bench.place import SIDES, Place, Side
from generator.bench.role import Role
from generator.bench.stands.facts import Bolt
from generator.findings import Change, Finding
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: A line that is off the middle by the bar's width and this much still carries the middle stands (mm). Common practice.
BESIDE_MIDDLE = constant(20, "how far from the middle a line may be to carry the middle supports")
#: Stands at the corners; those beyond are the middle pair.
CORNERS = 4


@dataclass(frozen=True)
class PlateLaws:
    """What a kind says of its plates."""

    meet: Law
    edge: Law


@dataclass(frozen=True)
class PlateWish:
    """What the plates of a kind are called, and the tapped holes in each, from the stand's axis (mm)."""

    name: str
    letters: str
    holes: tuple[Point, ...]
    diameter: Fraction
    purpose: str


@dataclass(frozen=True)
class Spot:
    """Where one stands: its place, the point that its plate is held about, and its axis where that is another.

    `tapped` are further tapped holes in its plate: X, Y of the frame, diameter (mm), purpose.
    """

    place: Place
    point: Point
    carried: Point | None = None
    tapped: tuple[tuple[Point, Fraction, str], ...] = ()


def middle_line(layout: Layout) -> Fraction | None:
    """The line that is near enough to the middle of the long sides to carry a stand; None when there is none.

    The nearest, the left one of two equally near: its post stands over the stand, and no other bar is needed.
    """
    middle = (layout.length - layout.section) / 2
    reach = layout.section + BESIDE_MIDDLE
    near = (line for line in layout.lines if abs(line - middle) <= reach)
    return min(near, key=lambda line: (abs(line - middle), line), default=None)


def _knee_line(layout: Layout) -> Fraction | None:
    """The line beside leg room that is nearest to the middle of the long sides, where the leg room is there."""
    middle = layout.length / 2
    if not any(over_leg_room(layout, side, middle) for side in SIDES):
        return None
    half = layout.section / 2
    lines = {line for row in (0, len(layout.rows) - 1) for line in knee_lines(layout, row)}
    return min(lines, key=lambda line: (abs(line + half - middle), line), default=None)


#: What a plate needs before it is fixed, and how plates below timber are.
DRILLED: tuple[str, ...] = ("Drill and tap the plates by their part sheets.",)
COACH_SCREWS = "Drive the coach screws up through the plates into the frame, with washers."


class OnPlates:
    """What kinds of stand on plates share, whatever stands under the plate."""

    def lines(self, spec: Spec, layout: Layout) -> tuple[Fraction, ...]:
        """With six, one in the middle where no line is near it. None across leg room."""
        if spec.base.count == CORNERS or middle_line(layout) is not None or _knee_line(layout) is not None:
            return ()
        return ((layout.length - layout.section) / 2,)

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """None: where the middle ones find no bar, one is added."""
        yield from ()


def corner_spots(spec: Spec, layout: Layout, inset: Fraction) -> Iterator[Spot]:
    """A spot in each corner, front row first, at each post beside leg room, with six also in the middle of each side.

    Each side from left to right. Leg room in the middle of a side has its own two instead.
    """
    line = middle_line(layout)
    if line is None:
        line = _knee_line(layout)
    centre = layout.length / 2 if line is None else line + layout.section / 2
    for side, y in zip(SIDES, (inset, layout.depth - inset), strict=True):
        between = [*_knee_spots(layout, side, inset, y)]
        if spec.base.count != CORNERS and not over_leg_room(layout, side, centre):
            between.append(Spot(Place(side=side, end="middle"), (centre, y)))
        yield Spot(Place(side=side, end="left"), (inset, y))
        yield from sorted(between, key=lambda spot: spot.point)
        yield Spot(Place(side=side, end="right"), (layout.length - inset, y))


def _knee_spots(layout: Layout, side: Side, inset: Fraction, y: Fraction) -> Iterator[Spot]:
    """Beside leg room, as far from its face as a corner's is from the frame's end; at a corner it has that one."""
    for bay in knee_bays(layout):
        if face_of(layout, bay) != side:
            continue
        for line, at in ((bay.left_line, bay.x.low - inset), (bay.right_line, bay.x.high + inset)):
            if line in layout.lines:
                yield Spot(Place(side=side, lines=(layout.line_number(line),)), (at, y))


def _plate(spec: Spec, wish: PlateWish, spot: Spot, seat: Seat, mark: str) -> Part:
    box = Box(seat.x, seat.y, Span(-spec.base.plate.thickness, Fraction(0)))
    return Part(
        mark=mark,
        name=wish.name,
        role=Role.STAND,
        own_group=wish.name,
        material=_metal(spec),
        kind="sheet",
        box=box,
        along="x",
        across="y",
        place=spot.place,
        thickness=spec.base.plate.thickness,
        metal=True,
        operations=tuple(_plate_holes(wish, box, spot, seat)),
    )


def _plate_holes(wish: PlateWish, box: Box, spot: Spot, seat: Seat) -> Iterator[Operation]:
    def local(x: Fraction, y: Fraction) -> Point:
        return (x - box.x.low, y - box.y.low)

    for hold in seat.holds:
        purpose = f"{_HOLDS[seat.by.into]} in {hold.member}"
        yield Operation("through hole", "bottom", local(*hold.at), seat.thread.clearance, None, purpose)
    for x, y in wish.holes:
        axis = spot.carried or spot.point
        at = local(axis[0] + x, axis[1] + y)
        yield Operation("tapped hole", "bottom", at, wish.diameter, None, wish.purpose)
    for at, diameter, purpose in spot.tapped:
        yield Operation("tapped hole", "bottom", local(*at), diameter, None, purpose)
    for port in seat.ports:
        yield Operation("port", "bottom", local(*port.at), port.size, None, f"key to {port.member}")


#: What goes through a plate's hole, by what holds it.
_HOLDS = {"slot nut": "bolt to slot nut", "wood": "coach screw"}


def pilots(frame: BuiltFrame, seats: Sequence[Seat]) -> Iterator[tuple[str, Operation]]:
    """Holes in the members for screws that need one."""
    members = {part.mark: part for part in frame.members}
    for seat in seats:
        for hold in seat.holds:
            if seat.by.pilot is None or hold.member not in members:
                continue
            member, (size, depth) = members[hold.member], seat.by.pilot
            x, y = hold.at[0] - member.box.x.low, hold.at[1] - member.box.y.low
            at = (x, y) if member.along == "x" else (y, x)
            yield member.mark, Operation("pilot hole", "bottom", at, size, depth, "screw of the plate below")


def _metal(spec: Spec) -> str:
    """What the plates are made of, by a name that no material of the spec has."""
    name = "aluminium plate"
    while name in spec.materials:
        name += " of the stand"
    return name


@dataclass(frozen=True)
class Plated:
    """A plate a spot, the bolts that hold them to the frame, and what these go into."""

    plates: tuple[Part, ...]
    bolts: tuple[Bolt, ...]
    by: HeldBy
    machining: tuple[tuple[str, Operation], ...]

    def acts(self, notes: tuple[str, ...]) -> tuple[str, ...]:
        """A step's notes, with how the plates are fixed where it is not by nuts that wait for them."""
        return (*notes[:1], *((COACH_SCREWS,) if self.by.into == "wood" else ()), *notes[1:])


def plated(spec: Spec, frame: BuiltFrame, spots: Sequence[Spot], wish: PlateWish) -> Plated:
    """A plate a spot, held as the frame's seat says."""
    seats = [frame.seat(spot.place, spot.point, spec.base.plate.size) for spot in spots]
    marks = [f"{wish.letters}{number}" for number in range(1, len(spots) + 1)]
    plates = tuple(_plate(spec, wish, *each) for each in zip(spots, seats, marks, strict=True))
    bolts = tuple(
        Bolt(mark, hold.member, hold.at)
        for mark, seat in zip(marks, seats, strict=True)
        for hold in seat.holds
    )
    return Plated(plates, bolts, seats[0].by, tuple(pilots(frame, seats)))


def larger_plate(case: Case) -> tuple[Change, ...]:
    """A plate whose holes are clear of its edges."""
    wide, deep = (said(case.spec, side + case.off) for side in case.spec.base.plate.size)
    return (Change("base.plate.size", f"[{wide}, {deep}]"),)


def _smaller_plate(
    spec: Spec, layout: Layout, points: Sequence[Point], plates: Sequence[Part]
) -> tuple[Change, ...]:
    """As wide as there is room between corner and middle: two halves of one and a half of the other."""
    rooms = [layout.length / 2]
    for one, other in combinations(plates, 2):
        if one.box.overlaps(other.box):  # each keeps its outer edge
            rooms.append((max(one.box.x.high, other.box.x.high) - min(one.box.x.low, other.box.x.low)) / 2)
    middles = [point[0] for point, plate in zip(points, plates, strict=True) if plate.place.end == "middle"]
    for middle in middles:
        rooms.append(min(middle, layout.length - middle) * 2 / 3)
    wide, deep = spec.base.plate.size
    sizes = (min(wide, *rooms), min(deep, layout.depth / 2))
    return (Change("base.plate.size", f"[{', '.join(said(spec, size, down=True) for size in sizes)}]"),)


def plates_apart(
    laws: PlateLaws, spec: Spec, layout: Layout, points: Sequence[Point], plates: Sequence[Part]
) -> Iterator[Verdict]:
    """Plates keep apart, and holes clear of their edges."""
    meet = [
        f"{one.mark} and {other.mark}"
        for one, other in combinations(plates, 2)
        if one.box.overlaps(other.box)
    ]
    cure = _smaller_plate(spec, layout, points, plates)
    yield Verdict(laws.meet, not meet, ", ".join(meet), ("base", "plate", "size"), remedy=cure)
    wide, deep = spec.base.plate.size
    for part in plates:
        edge = min(min(op.at[0], op.at[1], wide - op.at[0], deep - op.at[1]) for op in part.operations)
        limit = max(op.size for op in part.operations if isinstance(op.size, Fraction)) * Fraction(3, 2)
        yield Verdict(laws.edge, edge >= limit, part.mark, ("base", "plate", "size"), edge, limit, "at least")
