"""Plates between frame and stand: flush with the frame's outside, bolted into the bottom slots of two crossing bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from generator.bench.law import Case, Law, Verdict, said
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Operation, Part
from generator.bench.place import SIDES, Place
from generator.bench.role import Role
from generator.bench.stands.facts import Bolt, Point
from generator.calculators.casters import CORNER_BOLTS, MIDDLE_BOLTS
from generator.calculators.fasteners import THREADS
from generator.findings import Change
from generator.geometry import Box, Span
from generator.spec.joints import EndClip
from generator.spec.lookup import fastener, slot_nut
from generator.spec.schema import Spec
from generator.working import constant, least

#: Half a nut along its slot, in thread diameters. Common practice, no source.
HALF_NUT = constant("5/4", "half a slot nut in thread diameters", unit="")
#: A port in a plate over an access hole is this much wider than the hole (mm).
PORT_PLAY = constant(4, "a port is wider than its access hole by")
#: A line so much further off the middle than its bar is wide still carries the middle stands (mm). Common practice.
BESIDE_MIDDLE = constant(20, "how far beside the middle a line still carries the middle stands")
#: Stands at the corners; those beyond are the middle pair.
CORNERS = 4


@dataclass(frozen=True)
class PlateLaws:
    """What a kind says of its plates."""

    without_bar: Law
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
    """Where one stands: middle of its bolts, the centre of the crossing bar; `point` where it is not that middle."""

    place: Place
    x: Fraction
    y: Fraction
    crossing: Fraction
    point: Point | None = None

    @property
    def axis(self) -> Point:
        """Where its axis is, X and Y of the frame."""
        return self.point or (self.x, self.y)


def middle_line(layout: Layout) -> Fraction | None:
    """The line that is near enough to the middle of the long sides to carry a stand; None when there is none.

    The nearest, the left one of two equally near: its post stands over the stand, and no other bar is needed.
    """
    middle = (layout.length - layout.section) / 2
    reach = layout.section + BESIDE_MIDDLE
    near = (line for line in layout.lines if abs(line - middle) <= reach)
    return min(near, key=lambda line: (abs(line - middle), line), default=None)


def added_lines(spec: Spec, layout: Layout) -> tuple[Fraction, ...]:
    """Left edges of the base cross-members that six stands need where no line is near the middle."""
    if spec.base.count == CORNERS or middle_line(layout) is not None:
        return ()
    return ((layout.length - layout.section) / 2,)


def corner_spots(spec: Spec, layout: Layout, inset: Fraction) -> Iterator[Spot]:
    """A spot in each corner, front row first, and with six one in the middle of each long side."""
    half = layout.section / 2
    for side, y in zip(SIDES, (inset, layout.depth - inset), strict=True):
        yield Spot(Place(side=side, end="left"), inset, y, half)
        if spec.base.count != CORNERS:
            line = middle_line(layout)
            centre = layout.length / 2 if line is None else line + half
            yield Spot(Place(side=side, end="middle"), centre, y, centre)
        yield Spot(Place(side=side, end="right"), layout.length - inset, y, layout.length - half)


def _bolts(spec: Spec, layout: Layout, bars: Sequence[Part], stand: Spot, plate: str) -> Iterator[Bolt]:
    """Two along the rail, two along the crossing bar. A middle plate's nut clears the rail that its slot ends on."""
    half = layout.section / 2
    spread = CORNER_BOLTS if stand.x != stand.crossing else MIDDLE_BOLTS
    inset = stand.y if stand.y < layout.depth / 2 else layout.depth - stand.y
    room = inset - layout.section - THREADS[slot_nut(spec).thread].diameter * HALF_NUT
    across = spread if stand.x != stand.crossing else least(spread, room)
    rail_y = half if stand.y < layout.depth / 2 else layout.depth - half
    for x in (stand.x - spread, stand.x + spread):
        yield Bolt(plate, _bar_under(bars, x, rail_y), (x, rail_y))
    for y in (stand.y - across, stand.y + across):
        yield Bolt(plate, _bar_under(bars, stand.crossing, y), (stand.crossing, y))


def _bar_under(bars: Sequence[Part], x: Fraction, y: Fraction) -> str:
    """Mark of the base bar over a point of the underside; empty when there is none."""
    for bar in bars:
        box = bar.box
        if box.z.low == 0 and box.x.low <= x <= box.x.high and box.y.low <= y <= box.y.high:
            return bar.mark
    return ""


def _covered(bars: Sequence[Part], joints: Sequence[Joint]) -> tuple[tuple[Fraction, Fraction, str], ...]:
    """Access holes in the underside: X, Y and the member whose screw is behind."""
    by_mark = {bar.mark: bar for bar in bars}
    found = []
    for joint in joints:
        crossing = by_mark[joint.crossing]
        if joint.face != "bottom" or crossing.box.z.low != 0:
            continue
        at = crossing.box.span(crossing.along).low + joint.at
        centre = {axis: crossing.box.span(axis).middle for axis in "xy"} | {crossing.along: at}
        found.append((centre["x"], centre["y"], joint.member))
    return tuple(found)


def _plate(
    spec: Spec,
    layout: Layout,
    wish: PlateWish,
    stand: Spot,
    mark: str,
    bolts: Sequence[Bolt],
    covered: Sequence[tuple[Fraction, Fraction, str]],
) -> Part:
    wide, deep = spec.base.plate.size
    x = _beside(stand.x, wide, layout.length, is_middle=stand.x == stand.crossing)
    y = _beside(stand.y, deep, layout.depth, is_middle=False)
    box = Box(x, y, Span(-spec.base.plate.thickness, Fraction(0)))
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
        place=stand.place,
        thickness=spec.base.plate.thickness,
        metal=True,
        operations=tuple(_plate_holes(spec, wish, box, stand, bolts, covered)),
    )


def _beside(centre: Fraction, size: Fraction, total: Fraction, *, is_middle: bool) -> Span:
    if is_middle:
        return Span(centre - size / 2, centre + size / 2)
    return Span(Fraction(0), size) if centre < total / 2 else Span(total - size, total)


def _plate_holes(
    spec: Spec,
    wish: PlateWish,
    box: Box,
    stand: Spot,
    bolts: Sequence[Bolt],
    covered: Sequence[tuple[Fraction, Fraction, str]],
) -> Iterator[Operation]:
    def local(x: Fraction, y: Fraction) -> tuple[Fraction, Fraction]:
        return (x - box.x.low, y - box.y.low)

    thread = THREADS[slot_nut(spec).thread]
    for bolt in bolts:
        yield Operation(
            "through hole",
            "bottom",
            local(*bolt.at),
            thread.clearance,
            None,
            f"bolt to slot nut in {bolt.member}",
        )
    for x, y in wish.holes:
        at = local(stand.axis[0] + x, stand.axis[1] + y)
        yield Operation("tapped hole", "bottom", at, wish.diameter, None, wish.purpose)
    for x, y, member in covered:
        if box.x.low < x < box.x.high and box.y.low < y < box.y.high:
            size = spec_access_hole(spec) + PORT_PLAY
            yield Operation("port", "bottom", local(x, y), size, None, f"key to {member}")


def _metal(spec: Spec) -> str:
    """What the plates are made of, told apart from a material of that name in the spec."""
    name = "aluminium plate"
    while name in spec.materials:
        name += " of the stand"
    return name


def spec_access_hole(spec: Spec) -> Fraction:
    """The largest access hole of the end clips that join the frame (mm); that of none is a usual one."""
    chosen = spec.frame.joints
    names = (chosen.default, chosen.long_rails_to_corner_posts, chosen.inner_post_tops)
    clips = [item for item in (fastener(spec, name) for name in names) if isinstance(item, EndClip)]
    return max((clip.access_hole for clip in clips), default=Fraction(8))


def plates_of(
    spec: Spec,
    layout: Layout,
    bars: Sequence[Part],
    joints: Sequence[Joint],
    spots: Sequence[Spot],
    wish: PlateWish,
) -> tuple[tuple[Part, ...], tuple[Bolt, ...]]:
    """A plate a spot, two bolts in each of two crossing bars."""
    plates: list[Part] = []
    bolts: list[Bolt] = []
    for number, spot in enumerate(spots, 1):
        mark = f"{wish.letters}{number}"
        placed = tuple(_bolts(spec, layout, bars, spot, mark))
        bolts += placed
        plates.append(_plate(spec, layout, wish, spot, mark, placed, _covered(bars, joints)))
    return tuple(plates), tuple(bolts)


def loose_bolts(laws: PlateLaws, bolts: Sequence[Bolt]) -> Verdict:
    """Every bolt has a bar above it."""
    loose = sorted({bolt.plate for bolt in bolts if not bolt.member})
    return Verdict(laws.without_bar, not loose, ", ".join(loose), ("base", "count"))


def larger_plate(case: Case) -> tuple[Change, ...]:
    """A plate whose holes lie clear of its edges."""
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
