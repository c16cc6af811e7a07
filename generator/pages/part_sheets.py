"""Part sheets: one dimensioned drawing and one hole table for each distinct part."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_for_page, draw_on_page, holes_of
from generator.figures.model import Figures
from generator.pages.page import Context, Page, anchor


def context(figures: Figures, ruler: Ruler) -> Context:
    """For each distinct part: its drawing, holes, and the places its pieces go to."""
    return {
        "sheets": [
            {
                "row": row,
                "anchor": anchor(row.mark),
                "drawing": draw_for_page(figures, row, ruler),
                "holes": holes_of(row),
                "on": draw_on_page(figures, row, ruler),
                "places": [piece for piece in row.pieces if piece.where],
            }
            for row in figures.parts
        ]
    }


PAGE = Page("part-sheets", "Part sheets", "a drawing and a hole table for every part", context)
