"""Spindle speed, feed and passes: formula and material only. The cutter's own data and the machine come first.

Formulas of Machinery's Handbook. Cutting speeds are starting values; printed charts disagree by half.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.calculators.quantities import (
    MetresPerMinute,
    Millimetres,
    MillimetresPerMetre,
    MillimetresPerMinute,
    PerMinute,
    Ratio,
)

MM_PER_M = 1000.0


@dataclass(frozen=True)
class Cutting:
    """A material under a carbide cutter: speed range (m/min), chip a tooth (mm) for the smallest cutters."""

    name: str
    slowest: float
    fastest: float
    chip: float


#: Wrought aluminium: 244 to 457 m/min (800 to 1500 ft/min) in one chart, chip 0.05 (0.002 in at 1/4 in). Wood-based
#: boards: common practice, no source.
ALUMINIUM = Cutting("aluminium", 244, 457, 0.05)
BOARDS = Cutting("plywood and MDF", 400, 900, 0.1)
#: Of the cutter's diameter that one pass takes, in aluminium and in wood. Common practice, no source.
PASS_ALUMINIUM, PASS_WOOD = 1 / 3, 1 / 2


def spindle_speed(
    *, cutting_speed: MetresPerMinute, diameter: Millimetres, mm_per_m: MillimetresPerMetre = MM_PER_M
) -> PerMinute:
    """Revolutions a minute: n = 1000 v / (π d)."""
    return cutting_speed * mm_per_m / (math.pi * diameter)


def feed_rate(*, speed: PerMinute, chip: Millimetres, teeth: Ratio) -> MillimetresPerMinute:
    """Feed of a cutter with so many teeth, each taking its chip: n f z."""
    return speed * chip * teeth


def pass_depth(*, diameter: Millimetres, part: Ratio) -> Millimetres:
    """How deep one pass may go: a part of the cutter's diameter."""
    return diameter * part


def passes(*, depth: Millimetres, pass_depth: Millimetres) -> int:
    """How many passes a depth takes: ⌈depth / pass⌉."""
    return math.ceil(round(depth / pass_depth, 9))
