"""What was cut against what was planned: whether a piece of another size still fits, and by how much (mm)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.provenance import constant

#: What a stop on the bar saw repeats, and a fence on the sheet saw. Common practice, no source.
BAR_TOLERANCE = constant("0.2", "how far a bar may be off")
BOARD_TOLERANCE = constant("0.5", "how far a board may be off")
#: The least of a tongue that must stay in its slot when the panel has moved to the other side. Common practice.
LEAST_IN_SLOT = constant(6, "least of a tongue that stays in its slot")

Verdict = Literal["as planned", "fits", "trim", "recut"]


@dataclass(frozen=True)
class Held:
    """How one size of a piece is held: by tongues in slots at both ends, at one, or by none.

    `play` is how much longer it may be before it binds: free room at its ends, bottom clearance under its tongues.
    `spare` is how much shorter it may be before it falls out or gapes.
    """

    play: Fraction
    spare: Fraction


@dataclass(frozen=True)
class AsBuiltFit:
    """`off` is actual less planned; `left` what remains of play or spare, negative when it does not fit."""

    off: Fraction
    left: Fraction
    verdict: Verdict


def held_by_tongues(captured: int, tongue: Fraction, bottom_clearance: Fraction, shoulder: Fraction) -> Held:
    """A panel with `captured` edges (1 or 2) in slots across this size.

    Too long, it binds when its shoulders meet the bars' faces or its tongues the slots' floors. Too short, it can move
    until one tongue bottoms; what is left of the other must be LEAST_IN_SLOT.
    """
    free = min(bottom_clearance, shoulder)
    spare = tongue - LEAST_IN_SLOT - (bottom_clearance if captured == 2 else 0)
    return Held(captured * free, max(spare, Fraction(0)))


def moved(held: Held, shift: Fraction) -> Fraction:
    """What is left when what holds a piece comes nearer (`shift` below 0) or goes apart (above 0), in mm."""
    return held.play + shift if shift < 0 else held.spare - shift


def outcome(planned: Fraction, actual: Fraction, held: Held, tolerance: Fraction) -> AsBuiltFit:
    """Judge one size of a piece that was cut (mm). Too long can be trimmed, too short cannot be mended."""
    off = actual - planned
    left = held.play - off if off > 0 else held.spare + off
    if abs(off) <= tolerance:
        return AsBuiltFit(off, max(left, Fraction(0)), "as planned")
    if left >= 0:
        return AsBuiltFit(off, left, "fits")
    return AsBuiltFit(off, left, "trim" if off > 0 else "recut")
