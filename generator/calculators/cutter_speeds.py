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
from generator.provenance import constant, formula, inexact

MM_PER_M = inexact(constant(1000, "millimetres in a metre", "the metre", "mm/m"))


@dataclass(frozen=True)
class CuttingSpeeds:
    """A material under a carbide cutter: speed range (m/min), chip a tooth (mm) for the smallest cutters."""

    name: str
    slowest: float
    fastest: float
    chip: float


def _cutting(name: str, slowest: int, fastest: int, chip: str, why: str) -> CuttingSpeeds:
    return CuttingSpeeds(
        name,
        inexact(constant(slowest, f"slowest cut in {name}", why, "m/min")),
        inexact(constant(fastest, f"fastest cut in {name}", why, "m/min")),
        inexact(constant(chip, f"chip of a tooth in {name}", why)),
    )


#: Wrought aluminium: 244 to 457 m/min (800 to 1500 ft/min) in one chart, chip 0.05 (0.002 in at 1/4 in). Wood-based
#: boards: common practice, no source.
ALUMINIUM = _cutting("aluminium", 244, 457, "0.05", "one chart of several that disagree")
BOARDS = _cutting("plywood and MDF", 400, 900, "0.1", "common practice, no source")
#: Of the cutter's diameter that one pass takes, in aluminium and in wood. Common practice, no source.
PASS_ALUMINIUM, PASS_WOOD = (
    inexact(constant(part, f"part of the cutter's diameter that a pass takes in {name}", unit=""))
    for name, part in (("aluminium", "1/3"), ("wood", "1/2"))
)


@formula("cutting_speed * mm_per_m / (pi * diameter)", "1/min", "Machinery's Handbook")
def spindle_speed(
    *, cutting_speed: MetresPerMinute, diameter: Millimetres, mm_per_m: MillimetresPerMetre = MM_PER_M
) -> PerMinute:
    """Revolutions a minute: n = 1000 v / (π d)."""
    return cutting_speed * mm_per_m / (math.pi * diameter)


@formula("speed * chip * teeth", "mm/min", "Machinery's Handbook")
def feed_rate(*, speed: PerMinute, chip: Millimetres, teeth: Ratio) -> MillimetresPerMinute:
    """Feed of a cutter with so many teeth, each taking its chip: n f z."""
    return speed * chip * teeth


@formula("diameter * part", "mm", "common practice, no source")
def pass_depth(*, diameter: Millimetres, part: Ratio) -> Millimetres:
    """How deep one pass may go: a part of the cutter's diameter."""
    return diameter * part


def passes(*, depth: Millimetres, pass_depth: Millimetres) -> int:
    """How many passes a depth takes: ⌈depth / pass⌉."""
    return math.ceil(round(depth / pass_depth, 9))
