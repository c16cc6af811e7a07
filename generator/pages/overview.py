"""Overview: what will be built, from its four corners and three sides, its figures, and what to do first."""

from __future__ import annotations

from generator.drawings.corners import draw_corners
from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_views
from generator.drawings.slim_views import draw_slim_views
from generator.figures.model import Figures
from generator.pages.page import Context, Page, Slim, part_links

_WORST = ("error", "warning", "note")


def context(figures: Figures, ruler: Ruler) -> Context:
    """Pictures and dimensioned views with each part linked to its sheet; what is to be decided, the worst first."""
    links = part_links(figures)
    front, side, plan = draw_views(figures, ruler, links)
    slim = map(Slim, draw_slim_views(figures, ruler, links))
    return {
        "corners": draw_corners(figures, ruler),
        "front": front,
        "side": side,
        "plan": plan,
        "slim": dict(zip(("front", "side", "plan"), slim, strict=True)),
        "open": sorted(
            (check for check in figures.checks if not check.ok),
            key=lambda check: _WORST.index(check.severity),
        ),
        "counts": {
            "Cut": f"{len(figures.parts)} different parts",
            "Set up": f"{len(figures.setups)} cards",
            "Build": f"{len(figures.assembly.steps)} steps",
        },
    }


PAGE = Page("index", "Overview", "", context)
