"""From exact lengths to the blocks of the proof."""

from __future__ import annotations

from generator.calculators.bodies import Block, block_of
from generator.geometry import AXES, FACES, Box


def block_about(box: Box) -> Block:
    """A box of exact lengths as a block."""
    return block_of([(float(box.span(axis).low), float(box.span(axis).high)) for axis in AXES])


def face_axis(face: str) -> tuple[str, int]:
    """The axis that a face is across, and its end: 0 the low one, 1 the high one."""
    return next((axis, faces.index(face)) for axis, faces in FACES.items() if face in faces)


def about(middle: float, half: float) -> tuple[float, float]:
    """Both ends of what reaches `half` to either side of `middle`."""
    return (middle - half, middle + half)
