"""Assumed values: everything that the spec does not say."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Assumptions in three lists: from typical cards, fixed by the trade, defaults of the language.

    Those from memory are constants of the workings, where the template finds them with all others.
    """
    cards = [row for row in figures.assumed if row.reason.startswith("typical card")]
    fixed = [row for row in figures.assumed if row.reason.startswith("fixed")]
    memory = [row for row in figures.assumed if row.reason.startswith("from memory")]
    return {
        "cards": cards,
        "fixed": fixed,
        "defaults": [row for row in figures.assumed if row not in cards + fixed + memory],
    }


PAGE = Page("assumed-values", "Assumed values", "what the spec did not say", context)
