"""Holes for wood screws. Wood Handbook, chapter 8: lead holes of about 70 % of the root diameter in softwood and 90 %
in hardwood, a root of about two thirds of the shank. From memory.
"""

from __future__ import annotations

from generator.calculators.quantities import Millimetres, Ratio

ROOT = 2 / 3
SOFT, HARD = 0.7, 0.9
#: Drills on the shelf come in steps of half a millimetre; a clearance hole is at least this much wider (mm).
DRILL_STEP, PLAY = 0.5, 0.5


def pilot_hole(*, shank: Millimetres, part_of_root: Ratio, root: Ratio = ROOT) -> Millimetres:
    """Drill for the thread: d · 2/3 · share of the root."""
    return shank * root * part_of_root


def shank_hole(*, shank: Millimetres, play: Millimetres = PLAY) -> Millimetres:
    """Drill through the piece that is drawn against the other: d + play. Common practice, no source."""
    return shank + play


def next_drill(diameter: float, step: float = DRILL_STEP) -> float:
    """The nearest drill on the shelf (mm)."""
    return round(diameter / step) * step
