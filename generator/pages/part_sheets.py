"""Part sheets: one dimensioned drawing and one hole table for each distinct part."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_for_page, draw_on_page, draw_slim, holes_of
from generator.drawings.set_out import one_view
from generator.figures.model import Figures
from generator.pages.page import NO_SLIM, Context, Page, Slim, anchor


def context(figures: Figures, ruler: Ruler) -> Context:
    """For each distinct part: its drawing, holes, and the places its pieces go to."""
    slims = {row.mark: Slim(draw_slim(figures, row, ruler)) for row in figures.parts}
    wholes = {row.mark for row in figures.parts if one_view(figures, row)}
    return {
        "sheets": [
            {
                "row": row,
                "slim": slims[row.mark] if row.mark in wholes else NO_SLIM,
                "slim_on": slims[row.mark],
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
