"""Squaring by diagonals."""

from __future__ import annotations

import math
from fractions import Fraction

from generator.provenance import formula


@formula("sqrt(a**2 + b**2)", "mm", "Pythagoras")
def diagonal(a: Fraction, b: Fraction) -> float:
    """The diagonal of a rectangle from its two sides (mm)."""
    return math.hypot(a, b)
