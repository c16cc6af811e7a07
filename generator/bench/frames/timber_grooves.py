"""Grooves in timber for the edges of panels: as wide as the sheet and its play, stopped where the panel ends.

Those of the posts between the corners are open at the head, because dividers and backs are lowered into them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from generator.bench.box_body import face_axis
from generator.bench.frames.timber_joints import CutTenon
from generator.bench.piece import Operation, Part
from generator.bench.role import Role
from generator.calculators.fits import groove_width
from generator.geometry import AXES, FACES, Span
from generator.provenance import constant
from generator.spec.members import Members

#: A groove goes on this far beyond the panel where it is stopped (mm). Common practice, no source.
LONGER = constant(1, "a stopped groove is longer than its panel by")


def panel_grooves(
    goods: Members, members: Sequence[Part], walls: Sequence[Part], cuts: Sequence[CutTenon]
) -> Iterator[tuple[str, Operation]]:
    """Mark of a member and the groove in it, for every edge of a wall or tray that sits in it.

    A groove goes on into those `cuts` that are as wide as their member: they would be in the way of the panel's corner.
    """
    wide: dict[tuple[str, str], list[CutTenon]] = {}
    for cut in cuts:
        if cut.wide:
            wide.setdefault((cut.joint.member, cut.joint.end), []).append(cut)
    for wall in walls:
        if wall.fit is None:
            continue
        width = groove_width(goods.opening, wall.thickness, goods.clearance)
        for edge in wall.tongues:
            zone = _zone(wall, edge)
            axis, end = face_axis(edge)
            run = wall.along if axis == wall.across else wall.across
            for member in members:
                own = {each: member.shoulders.span(each) for each in AXES}
                if member.along != run or any(own[each].overlap(zone[each]) <= 0 for each in AXES):
                    continue
                thin = next(each for each in AXES if each not in (axis, run))
                there = {
                    thin: about(zone[thin].middle, width / 2),
                    axis: _depth(own[axis], goods.groove, FACES[axis][1 - end]),
                }
                first, last = (_into(wide.get((member.mark, face), ()), there) for face in FACES[run])
                whole = Span(own[run].low - first, own[run].high + last)
                before, beyond = (_longer(goods, wall, face) for face in FACES[run])
                low = max(whole.low, zone[run].low - before)
                high = min(whole.high, zone[run].high + beyond)
                if member.role is Role.INNER_POST:
                    high = whole.high  # its panel comes down from above
                at = ((low + high) / 2 - member.box.span(run).low, zone[thin].middle - own[thin].low)
                yield (
                    member.mark,
                    Operation(
                        "panel groove", FACES[axis][1 - end], at, (high - low, width), goods.groove,
                        f"{wall.mark}, {edge} edge",
                    ),
                )  # fmt: skip


def about(middle: Fraction, half: Fraction) -> Span:
    """What reaches `half` to both sides of a place (mm)."""
    return Span(middle - half, middle + half)


def _depth(own: Span, groove: Fraction, face: str) -> Span:
    """Where a groove in a face is across its timber (mm)."""
    _, high = face_axis(face)
    return Span(own.high - groove, own.high) if high else Span(own.low, own.low + groove)


def _into(cuts: Sequence[CutTenon], there: Mapping[str, Span]) -> Fraction:
    """How far a groove goes on into what is beyond the shoulder (mm), where there is wood in its line."""
    met = [
        cut.length
        for cut in cuts
        if all(
            about(cut.middles[axis], cut.sizes[axis] / 2).overlap(span) > 0 for axis, span in there.items()
        )
    ]
    return max(met, default=Fraction(0))


def _longer(goods: Members, wall: Part, face: str) -> Fraction:
    """How far a groove goes on beyond the corner of its panel (mm): where that floats, to where its edge can come."""
    return goods.groove - wall.tongues[face] if face in wall.floating and face in wall.tongues else LONGER


def _zone(wall: Part, edge: str) -> Mapping[str, Span]:
    """Where the tongue of an edge is, without what the notches at its ends take away."""
    axis, end = face_axis(edge)
    zone = {each: wall.box.span(each) for each in AXES}
    whole, tongue = zone[axis], wall.tongues[edge]
    zone[axis] = Span(whole.high - tongue, whole.high) if end else Span(whole.low, whole.low + tongue)
    run = wall.along if axis == wall.across else wall.across
    low = high = Fraction(0)
    for notch in wall.notches:
        edges = notch.corner.split()
        if edge in edges:
            other = next(each for each in edges if each != edge)
            size = notch.along if run == wall.along else notch.across
            if other == FACES[run][0]:
                low = size
            else:
                high = size
    zone[run] = Span(zone[run].low + low, zone[run].high - high)
    return zone
