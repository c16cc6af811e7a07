"""Plates between frame and stand, each where the frame's seat has it and held as the seat says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Literal

from generator.bench.frames.facts import BuiltFrame, Point, Seat
from generator.bench.law import Case, Law, Verdict, said
from generator.bench.layout import Layout
from generator.bench.piece import Operation, Part
from generator.bench.place import SIDES, Place
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
    """Where one stands: its place, the point that its plate is held about, and its axis where that is another."""

    place: Place
    point: Point
    carried: Point | None = None


def middle_line(layout: Layout) -> Fraction | None:
    """The line that is near enough to the middle of the long sides to carry a stand; None when there is none.

    The nearest, the left one of two equally near: its post stands over the stand, and no other bar is needed.
    """
    middle = (layout.length - layout.section) / 2
    reach = layout.section + BESIDE_MIDDLE
    near = (line for line in layout.lines if abs(line - middle) <= reach)
    return min(near, key=lambda line: (abs(line - middle), line), default=None)


class OnPlates:
    """What kinds of stand on plates share, whatever stands under the plate."""

    def lines(self, spec: Spec, layout: Layout) -> tuple[Fraction, ...]:
        """With six, one in the middle where no line is near it."""
        if spec.base.count == CORNERS or middle_line(layout) is not None:
            return ()
        return ((layout.length - layout.section) / 2,)

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """None: where the middle ones find no bar, one is added."""
        yield from ()


def corner_spots(spec: Spec, layout: Layout, inset: Fraction) -> Iterator[Spot]:
    """A spot in each corner, front row first, and with six one in the middle of each long side."""
    for side, y in zip(SIDES, (inset, layout.depth - inset), strict=True):
        yield Spot(Place(side=side, end="left"), (inset, y))
        if spec.base.count != CORNERS:
            line = middle_line(layout)
            centre = layout.length / 2 if line is None else line + layout.section / 2
            yield Spot(Place(side=side, end="middle"), (centre, y))
        yield Spot(Place(side=side, end="right"), (layout.length - inset, y))


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
        purpose = f"bolt to {seat.into} in {hold.member}"
        yield Operation("through hole", "bottom", local(*hold.at), seat.thread.clearance, None, purpose)
    for x, y in wish.holes:
        axis = spot.carried or spot.point
        at = local(axis[0] + x, axis[1] + y)
        yield Operation("tapped hole", "bottom", at, wish.diameter, None, wish.purpose)
    for port in seat.ports:
        yield Operation("port", "bottom", local(*port.at), port.size, None, f"key to {port.member}")


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
    into: Literal["slot nut"]


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
    return Plated(plates, bolts, seats[0].into)


def larger_plate(case: Case) -> tuple[Change, ...]:
    """A plate whose holes are clear of its edges."""
    wide, deep = (said(case.spec, side + case.off) for side in case.spec.base.plate.size)
    return (Change("base.plate.size", f"[{wide}, {deep}]"),)


def _smaller_plate(spec: Spec, layout: Layout, points: Sequence[Point]) -> tuple[Change, ...]:
    """As wide as there is room between corner and middle: two halves of one and a half of the other."""
    rooms = [layout.length / 2]
    if spec.base.count > CORNERS:
        middle = points[1][0]
        rooms = [min(middle, layout.length - middle) * 2 / 3]
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
    cure = _smaller_plate(spec, layout, points)
    yield Verdict(laws.meet, not meet, ", ".join(meet), ("base", "plate", "size"), remedy=cure)
    wide, deep = spec.base.plate.size
    for part in plates:
        edge = min(min(op.at[0], op.at[1], wide - op.at[0], deep - op.at[1]) for op in part.operations)
        limit = max(op.size for op in part.operations if isinstance(op.size, Fraction)) * Fraction(3, 2)
        yield Verdict(laws.edge, edge >= limit, part.mark, ("base", "plate", "size"), edge, limit, "at least")
