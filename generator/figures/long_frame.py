"""The long side of a frame of bars as a plane frame on its supports: rails, posts, and all else between them there."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.place import Side
from generator.bench.role import Role
from generator.calculators.plane_frame import Place
from generator.figures.bar_frame import BarFrame, BarPlane, beside, joined_bars, lies


def long_frame(bench: Bench, side: Side) -> BarFrame:
    """The frame of the front or the rear side."""
    row = bench.of(Role.LONG_RAIL, side=side)[0].box.y.middle
    bars = {bar.mark: bar for bar in joined_bars(bench) if bar.box.y.middle == row}
    parts = {part.mark: part for part in bench.parts}
    resting = list(_supports(bench, bars, row))
    also: dict[str, set[Place]] = {mark: {at for each, at in resting if each == mark} for mark in bars}
    for joint in bench.joints:
        # what ends on this side from across the bench
        if joint.crossing in bars and joint.member not in bars:
            across, bar = parts[joint.member], bars[joint.crossing]
            level = (bar if lies(bar) else across).box.z.middle
            x = (across if lies(bar) else bar).box.x.middle
            also[joint.crossing].add((float(x), float(level)))
    plane = BarPlane(bench, "x", bars, {mark: frozenset(points) for mark, points in also.items()})
    return plane.solved(frozenset(at for _, at in resting), ())


def _supports(bench: Bench, bars: dict[str, Part], row: Fraction) -> Iterator[tuple[str, Place]]:
    """Each stand of this side under the lowest bar above it, or under the foot of the nearest post."""
    middle = bench.layout.depth / 2
    low = [bar for bar in bars.values() if bar.role is Role.LONG_RAIL and bar.place.level == "base"]
    for x, y in bench.stand.points:
        if (y < middle) != (row < middle):
            continue
        above = min(low or bars.values(), key=lambda bar: beside(bar, "x", x))
        at = min(max(x, above.box.x.low), above.box.x.high)
        if lies(above):
            yield above.mark, (float(at), float(above.box.z.middle))
        else:
            yield above.mark, (float(above.box.x.middle), float(above.box.z.low))
