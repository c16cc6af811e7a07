"""Fits: tongue and rabbet of each captured panel, notches with their reasons, the relief's template."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.slot_section import draw_fit
from generator.figures.model import Figures
from generator.figures.setups import HALF_STEPS
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """The steps of the test piece, notched parts, and parts with tongues but no notch."""
    notched = [row for row in figures.parts if row.notches]
    return {
        "half_steps": HALF_STEPS,
        "section": draw_fit(figures.fits, figures.goods, ruler),
        "notched": notched,
        "whole": [row for row in figures.parts if row.tongues and not row.notches],
    }


PAGE = Page("fits", "Fits", "how the panels fit, notches, templates; how far each fit may be off", context)
