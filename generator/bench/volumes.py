"""What is left of a timber when its tenons, mortises, grooves and holes are cut (mm³)."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from generator.bench.box_body import face_axis
from generator.bench.piece import POCKET, TENONS, Operation, Part
from generator.calculators.mass import hole_area
from generator.provenance import constant

#: A pocket slopes down to its flat bottom: so much of its outline's box is cut out. Geometry.
OF_ITS_BOX = constant("0.5", "part of a pocket's outline times its depth that is cut out", "geometry", "")

_Cut = tuple[str, Fraction | tuple[Fraction, Fraction], Fraction]


def worked_volume(part: Part) -> Fraction | float:
    """Between the shoulders, with its tenons, less all that is cut into it. Where two cuts meet, both count."""
    volume: Fraction | float = part.shoulders.span(part.along).size * part.width * part.thickness
    # what is cut more than once is counted, so that the working stays short
    for (op, size, depth), count in Counter(_cut(part, each) for each in part.operations).items():
        area = size[0] * size[1] if isinstance(size, tuple) else hole_area(size)
        if op == POCKET:
            area = area * OF_ITS_BOX
        volume = volume + area * depth * count if op in TENONS else volume - area * depth * count
    return volume


def _cut(part: Part, operation: Operation) -> _Cut:
    """Its kind, size and depth; a hole that begins in the bottom of a wider one has the rest of the depth."""
    depth = operation.depth
    if depth is None:
        depth = part.box.span(face_axis(operation.face)[0]).size
    for other in part.operations:
        same = other is not operation and (other.face, other.at) == (operation.face, operation.at)
        if same and other.depth is not None and other.depth < depth and _wider(other, operation):
            depth = depth - other.depth
    return operation.op, operation.size, depth


def _wider(one: Operation, other: Operation) -> bool:
    if isinstance(one.size, tuple) or isinstance(other.size, tuple):
        return False
    return one.size > other.size
