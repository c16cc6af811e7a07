"""Caster plates under the corners and the load on each caster."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, inexact, rule

#: On a shop floor one wheel of four, or two of six, may carry nothing. Trade practice, not a standard.
CARRYING = {4: 3, 6: 4}
#: Allowance for rolling over joints and thresholds. Trade practice, sources differ (1.3 to 1.5 elsewhere).
ROLLING_FACTOR = inexact(constant("5/4", "allowance for rolling over joints", unit=""))

#: Nut radius + 2 + room for a driver, from the bar to the nearest caster hole (mm). Common practice, no source.
NUT_ROOM = constant(20, "space for a nut and its driver")


@dataclass(frozen=True)
class CasterLoad:
    """Loads in kg: with the wheels that may hang free left out, and that with the rolling factor."""

    each: float
    required: float


@rule("trade practice, not a standard")
def caster_load(loaded: float, count: int) -> CasterLoad:
    """On an uneven floor one wheel of four, or two of six, carry nothing; rolling over joints adds a quarter.

    Of any other number three carry. `loaded` in kg.
    """
    each = loaded / CARRYING.get(count, 3)
    return CasterLoad(each, each * ROLLING_FACTOR)


@rule("common practice, no source")
def caster_centre(section: Fraction, hole_pattern: tuple[Fraction, Fraction]) -> Fraction:
    """Distance of a caster's centre from the frame's outer faces (mm), both ways alike."""
    return section + max(hole_pattern) / 2 + NUT_ROOM
