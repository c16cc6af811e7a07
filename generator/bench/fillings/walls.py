"""Where strips and boards are in a bay: on its walls, in its middle, behind the face that its zone opens to."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.place import End
from generator.geometry import Span
from generator.provenance import constant

#: Play between a strip and a post, at each end of a runner, a shelf's end, a shelf's edge (mm).
PLAY = constant(1, "play at each end of a shelf, runner or strip")
NONE = Fraction(0)
#: Taken off when a strip is planed on both faces (mm). Common practice, no source.
PLANING = constant(2, "what planing takes off a strip")


def both_walls(
    bay: BayPlace, offset: Fraction, thickness: Fraction
) -> tuple[tuple[End, Span], tuple[End, Span]]:
    """X spans of a strip of `thickness` on the left and on the right wall of a bay."""
    left, right = bay.x.low - offset, bay.x.high + offset
    return (("left", Span(left, left + thickness)), ("right", Span(right - thickness, right)))


def centred(bay: BayPlace, size: Fraction, aside: Fraction = NONE) -> Span:
    """X span of a board of that size in the middle of a bay, whatever the bay measured, or so far right of it."""
    middle = bay.x.middle + aside
    return Span(middle - size / 2, middle + size / 2)


def from_face(layout: Layout, zone: ZonePlace, near: Fraction, far: Fraction) -> Span:
    """Y span of what is `near` to `far` behind the face that the zone opens to."""
    if zone.opens == "rear":
        face = zone.y.high + layout.section
        return Span(face - far, face - near)
    face = zone.y.low - layout.section
    return Span(face + near, face + far)


def ceiling(layout: Layout, bay: BayPlace) -> Fraction:
    """How high a board that reaches behind the posts may be: at the ends the tray's end rail is in its way (mm)."""
    levels = layout.levels
    top = levels.base_top + levels.opening
    at_end = bay.left_line == 0 or bay.right_line == layout.length - layout.section
    return min(top, levels.end_rail_bottom) if at_end else top
