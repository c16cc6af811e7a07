"""Checklist: the steps and checks to tick, by stable names."""

from __future__ import annotations

from itertools import groupby

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Steps by stage: [(stage, [step, ...]), ...] in the order of the work."""
    stages = groupby(figures.assembly.steps, key=lambda step: step.stage)
    return {"stages": [(name, list(steps)) for name, steps in stages]}


PAGE = Page("checklist", "Checklist", "steps to tick", context)
