"""A box of exact lengths as a block of the proof."""

from __future__ import annotations

from generator.calculators.bodies import Block, block_of
from generator.geometry import AXES, Box


def block_about(box: Box) -> Block:
    """A box of exact lengths as a block."""
    return block_of([(float(box.span(axis).low), float(box.span(axis).high)) for axis in AXES])
