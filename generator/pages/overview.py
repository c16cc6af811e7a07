"""Overview: what will be built, from three sides, and its figures at a glance."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_front, draw_plan, draw_side
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """Three views, each part in them linked to its sheet."""
    links = part_links(figures)
    return {
        "front": draw_front(figures, ruler, links),
        "side": draw_side(figures, ruler, links),
        "plan": draw_plan(figures, ruler, links),
    }


PAGE = Page("index", "Overview", context)
