"""Before you start: limits, cautions, tools, and what to measure yourself."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.cautions import LIMITS
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """The limits, the names of the sheets to measure, and the keys of the cautions in the order of the work."""
    return {
        "limits": LIMITS,
        "materials": list(dict.fromkeys(row.material for row in figures.parts if row.kind == "sheet")),
        "all_cautions": (
            "saw",
            "chips",
            "track-saw",
            "kickback",
            "router",
            "dust",
            "drill",
            "lift",
            "pinch",
            "tip",
            "finish",
        ),
    }


PAGE = Page("before-you-start", "Before you start", "cautions, tools, what to measure yourself", context)
