"""Assembly: one step a section, in stages."""

from __future__ import annotations

from itertools import groupby

from generator.drawings.dimensions import Ruler
from generator.drawings.step import draw_step
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """Steps by stage with their pictures: [(stage, [{step, drawing, alike}, ...]), ...] in the order of the work."""
    links = part_links(figures)
    stages = groupby(figures.assembly.steps, key=lambda step: step.stage)
    return {
        "stages": [
            (
                name,
                [
                    {"step": step, "drawing": draw_step(figures, step, ruler, links), "alike": _alike(step)}
                    for step in steps
                ],
            )
            for name, steps in stages
        ]
    }


def _alike(step: Step) -> tuple[str, ...]:
    """The sub-assemblies that one picture represents, the one that it shows first; none when it shows all."""
    homes = tuple(dict.fromkeys(motion.into for motion in step.motions))
    return homes if len(homes) > 1 and not step.assembly and "bench" not in homes else ()


PAGE = Page("assembly", "Assembly", "the order, step by step, and where to stop and check", context)
