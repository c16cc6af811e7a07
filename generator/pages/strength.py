"""Strength and stability: open drawers, supports, sag, what is lifted, doors, the height."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.strength import DIRECTIONS
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Faces with drawers apart from the others; margins counted from no drawer open; the bench apart from its parts."""
    with_drawers = [row for row in figures.stability if row.drawers]
    return {
        "faces": with_drawers,
        "margins": {
            row.face: list(enumerate(zip(row.margins, row.margins_alone, strict=True)))
            for row in with_drawers
        },
        "carried": [row for row in figures.handling if not row.whole],
        "whole": next(row for row in figures.handling if row.whole),
        "directions": DIRECTIONS,
        "softest": [row for row in figures.sway if row.high > row.target],
        "needing_posts": [row for row in figures.sags if row.needs_posts and row.without_posts is not None],
    }


PAGE = Page(
    "strength",
    "Strength and stability",
    "how many drawers may be open, what sags and sways, what is heavy, which door it passes",
    context,
)
