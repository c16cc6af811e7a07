"""Measure your goods: how each value of a data card is taken."""

from __future__ import annotations

from generator.bench.joints import JOINTS
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Keys of all that joins two bars, each once, with how its value is taken."""
    ways: dict[str, str] = {}
    for kind in JOINTS:
        for key, how in kind.how_to_measure:
            ways.setdefault(key, how)
    return {"fasteners": ways}


PAGE = Page(
    "measure", "Measure your goods", "how each value of a data card is taken", context, about_specs=True
)
