"""Before you start: limits, cautions, tools, and what to measure yourself."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.cautions import LIMITS
from generator.figures.model import Figures
from generator.pages.page import Context, Page

#: Only where bars of metal are cut.
OF_METAL = ("saw", "chips", "router")
#: Cautions of the house in the order of the work; those of this bench's own goods come before the last.
IN_ORDER = (
    "saw",
    "chips",
    "track-saw",
    "kickback",
    "router",
    "dust",
    "drill",
    "lift",
    "pinch",
    "tip",
    "finish",
)


def context(figures: Figures, ruler: Ruler) -> Context:
    """The limits, and the keys of the cautions in the order of the work."""
    of_steps = [key for step in figures.assembly.steps for key in step.cautions]
    metal = any(row.metal for row in figures.parts if row.is_bar)
    usual = [key for key in IN_ORDER if metal or key not in OF_METAL]
    own = [key for key in dict.fromkeys([*figures.stand.facts.cautions, *of_steps]) if key not in IN_ORDER]
    return {
        "limits": LIMITS,
        "all_cautions": (*usual[:-1], *own, usual[-1]),
    }


PAGE = Page("before-you-start", "Before you start", "cautions, tools, what to measure yourself", context)
