"""Masses of parts (kg) from lengths in mm."""

from __future__ import annotations

import math
from fractions import Fraction

from generator.provenance import formula, rule

KG_PER_M3_TO_KG_PER_MM3 = 1e-9


@formula("length * per_metre / 1000", "kg", "definition")
def bar_mass(length: Fraction, per_metre: Fraction) -> float:
    """A bar weighs its length times its mass a metre; holes are not taken off.

    `length` in mm, `per_metre` in kg/m, the result in kg.
    """
    return float(length * per_metre / 1000)


@formula("volume * density / 10**9", "kg", "definition")
def solid_mass(volume: Fraction | float, density: Fraction) -> float:
    """A board weighs its volume times its density.

    `volume` in mm³, `density` in kg/m³, the result in kg.
    """
    return float(volume) * float(density) * KG_PER_M3_TO_KG_PER_MM3


@formula("pi * diameter**2 / 4", "mm^2", "geometry")
def hole_area(diameter: Fraction) -> float:
    """Area of a round hole (mm²)."""
    return math.pi * float(diameter) ** 2 / 4


@rule("geometry")
def angle_section(leg: Fraction, thickness: Fraction) -> Fraction:
    """Area of an equal angle (mm²), corner radii left out."""
    return thickness * (2 * leg - thickness)
