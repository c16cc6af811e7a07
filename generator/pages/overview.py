"""Overview: what will be built, from three sides, and its figures at a glance."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_views
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """Three views, each part in them linked to its sheet."""
    front, side, plan = draw_views(figures, ruler, part_links(figures))
    return {"front": front, "side": side, "plan": plan}


PAGE = Page("index", "Overview", context)
