"""Story sticks: each stick drawn, with the table to mark it from a steel tape."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.drawings.stick import all_sticks, draw_stick
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Each stick with its drawing, and the spacers that set posts apart."""
    sticks = all_sticks(figures)
    drawings = distinct(draw_stick(stick, ruler) for stick in sticks)
    return {
        "sticks": [{"stick": stick, "drawing": each} for stick, each in zip(sticks, drawings, strict=True)],
        "bay_spacers": [row for row in figures.spacers if row.label.startswith("bay")],
    }


PAGE = Page("story-sticks", "Story sticks", "marks to set out from", context)
