"""Squaring by diagonals."""

from __future__ import annotations

import math
from fractions import Fraction


def diagonal(a: Fraction, b: Fraction) -> float:
    """Diagonal of a rectangle a x b (mm)."""
    return math.hypot(a, b)


def racking(difference: float, a: Fraction, b: Fraction) -> float:
    """How far side b leans (mm) when the two diagonals of a x b differ by `difference`: s = diff * d / (2a)."""
    return difference * diagonal(a, b) / (2 * float(a))
