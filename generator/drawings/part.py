"""The drawing that suits a part, and its machining in the order of setting out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache, partial
from math import inf

from generator.bench.frames.trays import HALF_LAP
from generator.bench.tops.board import DOG_HOLE
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.mitre import draw_mitres
from generator.drawings.panel import panel_in, panel_named
from generator.drawings.profile import profile_in, profile_named
from generator.drawings.set_out import draw_set_out, one_view, set_out_named, views
from generator.drawings.slim import SLIM_WIDTH
from generator.drawings.top_grid import draw_top_grid, top_named
from generator.drawings.trim import IN_WORDS, draw_trim
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow

LEAVES_ROOM = 190.0
"""A drawing no higher leaves room on its page for a table, in mm."""
PLAIN, ON_PAGE = 66.0, 118.0
"""Heights (mm) that the drawing of a part without machining needs no more than, and that of any board on a page."""


def draw_part(
    figures: Figures, row: PartRow, ruler: Ruler, brief: bool = False, height: float = inf
) -> Drawing:
    """The drawing by what the part is: the machined faces of a bar, the top's grid, or a board.

    A `brief` one leaves out what a hole table says; it is at most `height` mm high where that can be had.
    """
    return part_in(figures, row, ruler)(brief, height)


def part_in(figures: Figures, row: PartRow, ruler: Ruler) -> Callable[[bool, float], Drawing]:
    """`draw_part` for several heights (mm), brief or not: what was drawn for one is there for the next."""
    if row.is_bar:
        return profile_in(row, ruler, slot=figures.goods.slot_opening)
    if _has_grid(figures, row):
        grid = cache(partial(draw_top_grid, figures, ruler))
        return lambda brief, height: grid()
    if row.kind == "angle":
        flat = panel_in(row, ruler, draw_trim(row, tray_thickness(figures), ruler))

        def draw(brief: bool, height: float) -> Drawing:
            drawing = flat(brief, height)
            return replace(drawing, description=f"{drawing.description} {IN_WORDS}")

        return draw
    return panel_in(row, ruler, draw_mitres(row, ruler) if row.mitres else None)


def tray_thickness(figures: Figures) -> Fraction:
    """Thickness of the sheet that has a trim along its edge (mm)."""
    return next(row.thickness for row in figures.parts if row.group == "tray")


def draw_for_page(figures: Figures, row: PartRow, ruler: Ruler) -> Drawing:
    """The part's drawing for a page that has its hole table too: brief when it would fill the page alone."""
    if says_holes_below(row):
        return draw_part(figures, row, ruler, brief=True)
    if (drawn := draw_set_out(figures, row, ruler, ON_PAGE)) and one_view(figures, row):
        return drawn
    most = inf if row.operations else PLAIN if is_plain(row) else ON_PAGE
    drawing = draw_part(figures, row, ruler, height=most)
    if drawing.height > LEAVES_ROOM and holes_of(row):
        return draw_part(figures, row, ruler, brief=True)
    return drawing


def part_named(figures: Figures, row: PartRow, ruler: Ruler) -> tuple[str, str]:
    """Id and title of the part's drawing, without drawing it."""
    if one_view(figures, row):
        return set_out_named(row, whole=True)
    if row.is_bar:
        return profile_named(row, ruler)
    return top_named(figures.top) if _has_grid(figures, row) else panel_named(row, ruler)


def _has_grid(figures: Figures, row: PartRow) -> bool:
    """Whether it is a top with holes or with what is let into it."""
    return row.group == "top" and bool(figures.top.holes or figures.top.features)


def on_named(figures: Figures, row: PartRow) -> tuple[str, str] | None:
    """Id and title of what `draw_on_page` draws; None where it draws nothing."""
    drawn = views(figures, row) and not one_view(figures, row)
    return set_out_named(row, whole=False) if drawn else None


def draw_on_page(figures: Figures, row: PartRow, ruler: Ruler) -> Drawing | None:
    """What comes onto the part, where the first drawing has not said it."""
    return None if one_view(figures, row) else draw_set_out(figures, row, ruler, ON_PAGE)


def draw_slim(figures: Figures, row: PartRow, ruler: Ruler) -> Drawing | None:
    """What comes onto the part, for a phone: its views below each other."""
    return draw_set_out(figures, row, ruler, width=SLIM_WIDTH)


def is_plain(row: PartRow) -> bool:
    """Whether a part is only cut to its size."""
    return not (row.operations or row.tongues or row.notches or row.mitres or row.bands)


def says_holes_below(row: PartRow) -> bool:
    """Whether its drawing calls the holes and leaves their depths to the hole table, as there is room in slotted bars.

    Of what is cut from here to there, as in timber, the drawing says both.
    """
    return row.is_bar and row.metal and bool(holes_of(row))


def holes_of(row: PartRow) -> tuple[OperationRow, ...]:
    """Machining in the order of setting out. The top's grid and half laps are their drawings' business."""
    acts = (op for op in row.operations if op.purpose != DOG_HOLE and op.op != HALF_LAP)
    return tuple(sorted(acts, key=lambda op: (op.face, op.at[0], op.at[1], op.op)))
