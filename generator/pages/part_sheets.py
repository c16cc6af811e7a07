"""Part sheets: one dimensioned drawing and one hole table for each distinct part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_for_page, draw_on_page, draw_slim, holes_of
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.pages.page import NO_SLIM, Context, Page, Slim, anchor


def context(figures: Figures, ruler: Ruler) -> Context:
    """For each distinct part: its drawing, holes, and the places its pieces go to."""
    return of_drawings(figures, [drawings(figures, row, ruler) for row in figures.parts])


@dataclass(frozen=True)
class SheetDrawings:
    """The drawings of one part: itself, what comes onto it, and the latter for a phone."""

    part: Drawing
    on: Drawing | None
    slim: Drawing | None


def drawings(figures: Figures, row: PartRow, ruler: Ruler) -> SheetDrawings:
    """The drawings of one part."""
    found = (
        draw_for_page(figures, row, ruler),
        draw_on_page(figures, row, ruler),
        draw_slim(figures, row, ruler),
    )
    return SheetDrawings(*found)


def of_drawings(figures: Figures, drawn: Sequence[SheetDrawings]) -> Context:
    """The same with drawings that are there already, one for each part."""
    return {
        "sheets": [
            {
                "row": row,
                "slim": Slim(own.slim) if own.slim and not own.on else NO_SLIM,
                "slim_on": Slim(own.slim),
                "anchor": anchor(row.mark),
                "drawing": own.part,
                "holes": holes_of(row),
                "on": own.on,
                "places": [piece for piece in row.pieces if piece.where],
            }
            for row, own in zip(figures.parts, drawn, strict=True)
        ]
    }


PAGE = Page("part-sheets", "Part sheets", "a drawing and a hole table for every part", context)
