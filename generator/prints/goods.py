"""Screws and fittings at full size: lay the real one on the sheet."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.dimensions import Ruler
from generator.drawings.goods_looks import draw_goods, goods_of
from generator.drawings.paper import Paper
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.figures.model import Figures
from generator.prints.print import Print

TITLE = "Screws and fittings at full size"
DATUM = "Lay the real screw on its picture."


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """All goods of the hardware list that have sizes."""
    free = room(paper, full_scale=True).grown(-2.0)
    heading = Heading("Hardware", TITLE, scale="1 : 1", datum=DATUM)
    sheets = draw_goods(goods_of(figures.hardware), ruler, free, stamp.scale(lying=False))
    return [Content(canvas, heading, TITLE, full_scale=True) for canvas, _ in sheets]


PRINT = Print("hardware", "Hardware at full size", "lay the real screw on its picture", contents)
