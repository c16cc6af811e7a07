"""Bars as solid bodies: true slots and holes."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.box_body import about, face_axis
from generator.bench.piece import Operation, Part
from generator.calculators.bodies import Block, Body, block_of, carve, slotted_section
from generator.geometry import AXES
from generator.spec.goods import Profile


def bar_body(part: Part, profile: Profile) -> Body:
    """A bar with its four slots and all holes."""
    slot = profile.slot
    rectangles = slotted_section(
        section=float(profile.section),
        opening=float(slot.opening),
        depth=float(slot.depth),
        lip=float(slot.lip),
        undercut=float(slot.undercut),
    )
    blocks: tuple[Block, ...] = tuple(_along(part, rectangle) for rectangle in rectangles)
    for operation in part.operations:
        blocks = carve(blocks, _void(part, operation))
    return Body(part.mark, part.mark, "bar", blocks)


def _along(part: Part, rectangle: tuple[float, float, float, float]) -> Block:
    """A rectangle of the section drawn out over the bar's length."""
    first, second = (axis for axis in AXES if axis != part.along)
    low = {axis: float(part.box.span(axis).low) for axis in AXES}
    spans = {
        part.along: (low[part.along], float(part.box.span(part.along).high)),
        first: (low[first] + rectangle[0], low[first] + rectangle[2]),
        second: (low[second] + rectangle[1], low[second] + rectangle[3]),
    }
    return block_of([spans[axis] for axis in AXES])


def _void(part: Part, operation: Operation) -> Block:
    """What a hole, a tapped end or a relief takes away."""
    axis, end = face_axis(operation.face)
    spans = {each: (float(part.box.span(each).low), float(part.box.span(each).high)) for each in AXES}
    low, high = spans[axis]
    if operation.depth is not None:
        depth = float(operation.depth)
        spans[axis] = (low, low + depth) if end == 0 else (high - depth, high)
    across = [each for each in AXES if each != axis]
    if axis == part.along:  # a tapped end: in the middle of the section
        half = float(_width(operation.size)) / 2
        for each in across:
            spans[each] = about(float(part.box.span(each).middle), half)
        return block_of([spans[each] for each in AXES])
    along, wide = operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
    other = next(each for each in across if each != part.along)
    start = float(part.box.span(part.along).low + operation.at[0])
    spans[part.along] = about(start, float(along) / 2)
    spans[other] = about(float(part.box.span(other).low + operation.at[1]), float(wide) / 2)
    return block_of([spans[each] for each in AXES])


def _width(size: Fraction | tuple[Fraction, Fraction]) -> Fraction:
    return size[0] if isinstance(size, tuple) else size
