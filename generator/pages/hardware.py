"""Hardware: what to have, and every joint with its fastener and the place of its key."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Joints by the bar on which they sit, A2 before A10."""
    crossings = sorted({row.crossing for row in figures.joint_rows}, key=in_order)
    return {
        "crossings": [
            (mark, [row for row in figures.joint_rows if row.crossing == mark]) for mark in crossings
        ]
    }


def in_order(mark: str) -> tuple[str, int]:
    """Sorts A2 before A10."""
    letters = mark.rstrip("0123456789")
    return (letters, int(mark[len(letters) :] or 0))


PAGE = Page("hardware", "Hardware", "fasteners, joint by joint", context)
