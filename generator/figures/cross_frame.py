"""What lies across the bench at one place of its length, as a plane frame on both long sides, which sag with it.

A member between the sides is bent against their posts by nothing: so it sags more than the real one. A spine post
stands on the member below, and both bear what is on the upper one.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.calculators.plane_frame import Place
from generator.figures.bar_frame import BarFrame, BarPlane, joined_bars, lies, stands


def cross_frame(bench: Bench, x: Fraction, sides: Mapping[Fraction, BarFrame]) -> BarFrame:
    """The plane at this place of the length; `sides` are the frames of both long sides by their Y (mm)."""
    bars = {
        bar.mark: bar
        for bar in joined_bars(bench)
        if bar.box.x.middle == x and (_across(bar) or (stands(bar) and bar.box.y.middle not in sides))
    }
    also: dict[str, set[Place]] = {mark: set() for mark in bars}
    parts = {part.mark: part for part in bench.parts}
    resting: dict[Fraction, set[Place]] = {row: set() for row in sides}
    for joint in bench.joints:
        row = parts[joint.crossing].box.y.middle
        if joint.member in bars and joint.crossing not in bars and row in sides:
            at = float(row), float(bars[joint.member].box.z.middle)
            also[joint.member].add(at)
            resting[row].add(at)
    plane = BarPlane(bench, "y", bars, {mark: frozenset(points) for mark, points in also.items()})
    beds = []
    for row, points in resting.items():
        places = tuple(sorted(points))
        beds.append((places, sides[row].gives([(float(x), z) for _, z in places])))
    return plane.solved(frozenset(), [(places, gives) for places, gives in beds if places])


def _across(bar: Part) -> bool:
    return lies(bar) and bar.box.y.size > bar.box.x.size
