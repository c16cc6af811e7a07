"""Squaring by diagonals."""

from __future__ import annotations

import math
from fractions import Fraction

from generator.provenance import formula


@formula("sqrt(a**2 + b**2)", "mm", "Pythagoras")
def diagonal(a: Fraction, b: Fraction) -> float:
    """The diagonal of a rectangle from its two sides (mm)."""
    return math.hypot(a, b)


@formula("difference * sqrt(a**2 + b**2) / (2 * a)", "mm", "geometry, for small differences")
def racking(difference: float, a: Fraction, b: Fraction) -> float:
    """Two diagonals that differ show how far a side leans.

    The lean of side b (mm) when the diagonals of a x b differ by `difference`.
    """
    return difference * diagonal(a, b) / (2 * float(a))
