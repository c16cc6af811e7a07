"""Checks: what does not fit first, then what does; masses and diagonals."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Check, Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Failed checks, worst first; those that hold in groups of one code and title."""
    passed: dict[tuple[str, str], list[Check]] = {}
    for check in figures.checks:
        if check.ok:
            passed.setdefault((check.code, check.title), []).append(check)
    return {
        "failed": [check for check in figures.checks if not check.ok],
        "passed": list(passed.values()),
    }


PAGE = Page("checks", "Checks", context)
