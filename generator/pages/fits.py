"""Fits: tongue and rabbet of each captured panel, notches with their reasons, the relief's template."""

from __future__ import annotations

from fractions import Fraction

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page

#: What a tongue may be too thick by on the test piece, and half of it: the cutter works on both faces (mm).
HALF_STEPS = tuple((Fraction(n, 10), Fraction(n, 20)) for n in (6, 5, 4, 3, 2, 1))


def context(figures: Figures, ruler: Ruler) -> Context:
    """The steps of the test piece, notched parts, and parts with tongues but no notch."""
    notched = [row for row in figures.parts if row.notches]
    return {
        "half_steps": HALF_STEPS,
        "notched": notched,
        "whole": [row for row in figures.parts if row.tongues and not row.notches],
    }


PAGE = Page("fits", "Fits", context)
