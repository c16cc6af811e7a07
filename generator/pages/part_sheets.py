"""Part sheets: one dimensioned drawing and one hole table for each distinct part."""

from __future__ import annotations

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.panel import draw_panel
from generator.drawings.profile import draw_profile
from generator.drawings.top_grid import draw_top_grid
from generator.figures.model import Figures, Operation, PartRow
from generator.pages.page import Context, Page, anchor


def context(figures: Figures, ruler: Ruler) -> Context:
    """For each distinct part: its drawing, holes, and the places its pieces go to."""
    return {
        "sheets": [
            {
                "row": row,
                "anchor": anchor(row.mark),
                "drawing": draw_part(figures, row, ruler),
                "holes": hole_table(row),
                "places": [piece for piece in row.pieces if piece.where],
            }
            for row in figures.parts
        ]
    }


def draw_part(figures: Figures, row: PartRow, ruler: Ruler) -> Drawing:
    """The drawing by what the part is: the machined faces of a bar, the top's grid, or a board."""
    if row.kind == "profile":
        return draw_profile(row, ruler, slot=figures.goods.slot_opening)
    if row.group == "top" and figures.top.holes:
        return draw_top_grid(figures, ruler)
    return draw_panel(row, ruler)


def hole_table(row: PartRow) -> tuple[Operation, ...]:
    """Machining in words, in the order of setting out. The top's grid is its drawing's business."""
    if row.group == "top":
        return ()
    return tuple(sorted(row.operations, key=lambda op: (op.face, op.at[0], op.at[1], op.op)))


PAGE = Page("part-sheets", "Part sheets", context)
