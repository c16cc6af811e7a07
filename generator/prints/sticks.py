"""Story sticks and the height rod at full scale, in tiles; and each in one piece."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.drawings.paper import Paper
from generator.drawings.sheet import Content, Stamp
from generator.drawings.stick import all_sticks, members
from generator.drawings.strips import MarkingStrip, Position, one_piece, strip_sheets
from generator.figures.model import Figures
from generator.figures.rows.setting_out import Stick
from generator.names import slug
from generator.prints.print import Print


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """All sticks, then the rod."""
    return strip_sheets(
        [strip_of(stick) for stick in all_sticks(figures)], ruler, paper, stamp, "Story sticks"
    )


def strip_of(stick: Stick) -> MarkingStrip:
    """A stick as a strip to be tiled."""
    positions = tuple(
        Position(mark.at, f"{mark.label} (centre)" if mark.kind == "centre" else mark.label, mark.kind)
        for mark in stick.marks
    )
    crosses = tuple((Fraction(low), Fraction(high)) for low, high in members(stick, 1.0))
    return MarkingStrip(stick.name, stick.datum, stick.lies_on, stick.length, positions, crosses=crosses)


def pieces(figures: Figures, ruler: Ruler) -> list[Drawing]:
    """Each stick at true scale in one piece."""
    sticks = all_sticks(figures)
    return distinct(one_piece(strip_of(stick), ruler, f"full-{slug(stick.name)}") for stick in sticks)


PRINT = Print(
    "story-sticks", "Story sticks", "full scale, in tiles to join; the height rod with them", contents
)
