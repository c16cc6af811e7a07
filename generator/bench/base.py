"""Casters and their plates: where they stand, the bolts into the bottom slots, the ports over access holes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.model import Joint, Operation, Part, PlateBolt
from generator.calculators.casters import CORNER_BOLTS, MIDDLE_BOLTS, caster_centre
from generator.calculators.fasteners import THREADS
from generator.geometry import Box, Span
from generator.spec.lookup import caster, slot_nut
from generator.spec.schema import Spec
from generator.working import constant, least

#: Half a nut along its slot, in thread diameters. Common practice, no source.
HALF_NUT = constant("5/4", "half a slot nut in thread diameters", unit="")
#: A port in a plate over an access hole is this much wider than the hole (mm).
PORT_PLAY = constant(4, "a port is wider than its access hole by")


@dataclass(frozen=True)
class BaseParts:
    """Plates, the swivels' X, Y in the frame (mm) in the same order, and the bolts of all plates."""

    plates: tuple[Part, ...]
    centres: tuple[tuple[Fraction, Fraction], ...]
    bolts: tuple[PlateBolt, ...]


@dataclass(frozen=True)
class _Stand:
    """One caster: its place, whether in a corner, and the centre of the crossing bar when it is not."""

    where: str
    x: Fraction
    y: Fraction
    crossing: Fraction


def middle_line(layout: Layout) -> Fraction | None:
    """The line nearest to the middle of the long sides; the left one of two equally near. None without lines."""
    middle = (layout.length - layout.section) / 2
    return min(layout.lines, key=lambda line: (abs(line - middle), line), default=None)


def _stands(spec: Spec, layout: Layout, inset: Fraction) -> Iterator[_Stand]:
    half = layout.section / 2
    for side, y in (("front", inset), ("back", layout.depth - inset)):
        yield _Stand(f"{side} left", inset, y, half)
        line = middle_line(layout)
        if spec.base.count == 6 and line is not None:
            centre = line + half
            yield _Stand(f"{side} middle", centre, y, centre)
        yield _Stand(f"{side} right", layout.length - inset, y, layout.length - half)


def base_parts(spec: Spec, layout: Layout, bars: Sequence[Part], joints: Sequence[Joint]) -> BaseParts:
    """Plates flush with the frame's outside, two bolts in each of two crossing bars."""
    inset = caster_centre(layout.section, caster(spec).holes)
    stands = tuple(_stands(spec, layout, inset))
    plates: list[Part] = []
    bolts: list[PlateBolt] = []
    for number, stand in enumerate(stands, 1):
        mark = f"CP{number}"
        placed = tuple(_bolts(spec, layout, bars, stand, mark))
        bolts += placed
        plates.append(_plate(spec, layout, stand, mark, placed, _covered(bars, joints)))
    return BaseParts(tuple(plates), tuple((stand.x, stand.y) for stand in stands), tuple(bolts))


def _bolts(
    spec: Spec, layout: Layout, bars: Sequence[Part], stand: _Stand, plate: str
) -> Iterator[PlateBolt]:
    """Two along the rail, two along the crossing bar. A middle plate's nut clears the rail that its slot ends on."""
    half = layout.section / 2
    spread = CORNER_BOLTS if stand.x != stand.crossing else MIDDLE_BOLTS
    inset = stand.y if stand.y < layout.depth / 2 else layout.depth - stand.y
    room = inset - layout.section - THREADS[slot_nut(spec).thread].diameter * HALF_NUT
    across = spread if stand.x != stand.crossing else least(spread, room)
    rail_y = half if stand.y < layout.depth / 2 else layout.depth - half
    for x in (stand.x - spread, stand.x + spread):
        yield PlateBolt(plate, _bar_under(bars, x, rail_y), (x, rail_y))
    for y in (stand.y - across, stand.y + across):
        yield PlateBolt(plate, _bar_under(bars, stand.crossing, y), (stand.crossing, y))


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
    stand: _Stand,
    mark: str,
    bolts: Sequence[PlateBolt],
    covered: Sequence[tuple[Fraction, Fraction, str]],
) -> Part:
    wide, deep = spec.base.plate.size
    x = _beside(stand.x, wide, layout.length, is_middle=stand.x == stand.crossing)
    y = _beside(stand.y, deep, layout.depth, is_middle=False)
    box = Box(x, y, Span(-spec.base.plate.thickness, Fraction(0)))
    return Part(
        mark=mark,
        name="caster plate",
        group="caster plate",
        material="aluminium plate",
        kind="sheet",
        box=box,
        along="x",
        across="y",
        where=stand.where,
        thickness=spec.base.plate.thickness,
        operations=tuple(_plate_holes(spec, box, stand, bolts, covered)),
    )


def _beside(centre: Fraction, size: Fraction, total: Fraction, *, is_middle: bool) -> Span:
    if is_middle:
        return Span(centre - size / 2, centre + size / 2)
    return Span(Fraction(0), size) if centre < total / 2 else Span(total - size, total)


def _plate_holes(
    spec: Spec,
    box: Box,
    stand: _Stand,
    bolts: Sequence[PlateBolt],
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
    wide, deep = caster(spec).holes
    for x in (stand.x - wide / 2, stand.x + wide / 2):
        for y in (stand.y - deep / 2, stand.y + deep / 2):
            yield Operation(
                "tapped hole", "bottom", local(x, y), thread.diameter, None, f"{thread.name} for the caster"
            )
    for x, y, member in covered:
        if box.x.low < x < box.x.high and box.y.low < y < box.y.high:
            size = spec_access_hole(spec) + PORT_PLAY
            yield Operation("port", "bottom", local(x, y), size, None, f"key to {member}")


def spec_access_hole(spec: Spec) -> Fraction:
    """The largest access hole of the spec's end clips (mm)."""
    return max(
        (item.access_hole for item in spec.hardware.values() if item.kind == "end clip"), default=Fraction(8)
    )
