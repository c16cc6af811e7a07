"""Measure your goods: how each value of a data card is taken."""

from __future__ import annotations

from generator.bench.joints import JOINTS
from generator.drawings.dimensions import Ruler
from generator.drawings.slot_section import draw_slot
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Keys of what joins the members of this bench, each once, with how its value is taken; whether they have slots."""
    ways: dict[str, str] = {}
    used = {many for _, many in figures.joints.kinds}
    for kind in JOINTS:
        for key, how in kind.how_to_measure if kind.many in used else ():
            ways.setdefault(key, how)
    slots = any(row.is_bar and row.metal for row in figures.parts)
    return {"fasteners": ways, "slots": slots, "section": draw_slot(figures.goods, ruler)}


PAGE = Page(
    "measure", "Measure your goods", "how each value of a data card is taken", context, about_specs=True
)
