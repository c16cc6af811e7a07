"""Overview: what will be built, from its four corners and three sides, and its figures at a glance."""

from __future__ import annotations

from generator.drawings.corners import draw_corners
from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_views
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """Pictures and dimensioned views with each part linked to its sheet."""
    front, side, plan = draw_views(figures, ruler, part_links(figures))
    return {
        "corners": draw_corners(figures, ruler),
        "front": front,
        "side": side,
        "plan": plan,
    }


PAGE = Page("index", "Overview", "", context)
