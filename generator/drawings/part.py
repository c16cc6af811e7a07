"""The drawing that suits a part, and its machining in the order of setting out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import inf

from generator.bench.frames.trays import HALF_LAP
from generator.bench.tops.board import DOG_HOLE
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.mitre import draw_mitres
from generator.drawings.panel import draw_panel
from generator.drawings.profile import draw_profile
from generator.drawings.top_grid import draw_top_grid
from generator.drawings.trim import IN_WORDS, draw_trim
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow

LEAVES_ROOM = 190.0
"""A drawing no higher leaves room on its page for a table, in mm."""


def draw_part(
    figures: Figures, row: PartRow, ruler: Ruler, brief: bool = False, height: float = inf
) -> Drawing:
    """The drawing by what the part is: the machined faces of a bar, the top's grid, or a board.

    A `brief` one leaves out what a hole table says; it is at most `height` mm high where that can be had.
    """
    if row.is_bar:
        return draw_profile(row, ruler, slot=figures.goods.slot_opening, brief=brief, height=height)
    if row.group == "top" and (figures.top.holes or figures.top.features):
        return draw_top_grid(figures, ruler)
    if row.kind == "angle":
        section = draw_trim(row, tray_thickness(figures), ruler)
        drawing = draw_panel(row, ruler, brief=brief, height=height, section=section)
        return replace(drawing, description=f"{drawing.description} {IN_WORDS}")
    mitred = draw_mitres(row, ruler) if row.mitres else None
    return draw_panel(row, ruler, brief=brief, height=height, section=mitred)


def tray_thickness(figures: Figures) -> Fraction:
    """Thickness of the sheet that has a trim along its edge (mm)."""
    return next(row.thickness for row in figures.parts if row.group == "tray")


def draw_for_page(figures: Figures, row: PartRow, ruler: Ruler) -> Drawing:
    """The part's drawing for a page that has its hole table too: brief when it would fill the page alone."""
    drawing = draw_part(figures, row, ruler)
    if drawing.height > LEAVES_ROOM and holes_of(row):
        return draw_part(figures, row, ruler, brief=True)
    return drawing


def holes_of(row: PartRow) -> tuple[OperationRow, ...]:
    """Machining in the order of setting out. The top's grid and half laps are their drawings' business."""
    acts = (op for op in row.operations if op.purpose != DOG_HOLE and op.op != HALF_LAP)
    return tuple(sorted(acts, key=lambda op: (op.face, op.at[0], op.at[1], op.op)))
