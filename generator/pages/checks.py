"""Checks: what someone can be hurt by, then what does not fit, then all that holds; masses and diagonals."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.checks import Check
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Checks for safety by their caution; the other ones that fail, worst first; those that hold."""
    safety: dict[str, list[Check]] = {}
    for check in figures.checks:
        if check.caution:
            safety.setdefault(check.caution, []).append(check)
    others = [check for check in figures.checks if not check.caution]
    return {
        "safety": safety,
        "failed": [check for check in others if not check.ok],
        "passed": [check for check in others if check.ok],
    }


PAGE = Page("checks", "Checks", "what fits, what does not, masses, diagonals", context)
