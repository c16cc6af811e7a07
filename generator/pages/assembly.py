"""Assembly: one step a section, in stages."""

from __future__ import annotations

from itertools import groupby

from generator.drawings.dimensions import Ruler
from generator.drawings.step import draw_step
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """Steps by stage with their pictures: [(stage, [{step, drawing}, ...]), ...] in the order of the work."""
    links = part_links(figures)
    stages = groupby(figures.assembly.steps, key=lambda step: step.stage)
    return {
        "stages": [
            (name, [{"step": step, "drawing": draw_step(figures, step, links)} for step in steps])
            for name, steps in stages
        ]
    }


PAGE = Page("assembly", "Assembly", context)
