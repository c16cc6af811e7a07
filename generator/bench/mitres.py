"""Mitred ends of the strips around a top: what each end loses, in steps that leave no two pieces in one place."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.piece import Part
from generator.calculators.bodies import Block, block_of
from generator.geometry import AXES, FACES

#: Steps by which a slope of 45 degrees is built of blocks.
STEPS = 6
#: What is cut goes on this far beyond the strip (mm).
BEYOND = 1.0
#: The face of the strip that looks out, by the side of the top that it is on.
_OUT = {"front": "front", "back": "rear", "left": "left", "right": "right"}


def mitre_voids(part: Part) -> Iterator[Block]:
    """What is cut off a strip at its mitred ends. The strips along the bench keep what is on the slope itself."""
    out = _OUT[part.place.side or part.place.end]
    across = next(axis for axis in AXES if out in FACES[axis])
    step = float(part.thickness) / STEPS
    for end in part.mitres:
        for number in range(STEPS):
            kept = step * (number + (1 if part.along == "x" else 0))
            spans = {axis: _wide(part, axis) for axis in AXES}
            low, high = _span(part, part.along)
            spans[part.along] = (
                (low + number * step, low + (number + 1) * step)
                if end == FACES[part.along][0]
                else (high - (number + 1) * step, high - number * step)
            )
            low, high = _span(part, across)
            spans[across] = (
                (low + kept, high + BEYOND) if out == FACES[across][0] else (low - BEYOND, high - kept)
            )
            yield block_of([spans[axis] for axis in AXES])


def _span(part: Part, axis: str) -> tuple[float, float]:
    span = part.box.span(axis)
    return float(span.low), float(span.high)


def _wide(part: Part, axis: str) -> tuple[float, float]:
    low, high = _span(part, axis)
    return low - BEYOND, high + BEYOND
