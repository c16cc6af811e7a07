"""Masses of parts (kg) from lengths in mm."""

from __future__ import annotations

from fractions import Fraction

KG_PER_M3_TO_KG_PER_MM3 = 1e-9


def bar_mass(length: Fraction, per_metre: Fraction) -> float:
    """Mass of a bar of `length` mm at `per_metre` kg/m. Holes are not deducted."""
    return float(length * per_metre / 1000)


def solid_mass(volume: Fraction | float, density: Fraction) -> float:
    """Mass of `volume` mm³ at `density` kg/m³."""
    return float(volume) * float(density) * KG_PER_M3_TO_KG_PER_MM3


def angle_section(leg: Fraction, thickness: Fraction) -> Fraction:
    """Area of an equal angle (mm²), corner radii left out."""
    return thickness * (2 * leg - thickness)
