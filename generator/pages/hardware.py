"""Hardware: what to have, and every joint with its fastener and the place of its key."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    crossings = list(dict.fromkeys(row.crossing for row in figures.joint_rows))
    order = {mark: place for place, mark in enumerate(mark for part in figures.parts for mark in part.marks)}
    return {
        "crossings": [
            (mark, [row for row in figures.joint_rows if row.crossing == mark])
            for mark in sorted(crossings, key=lambda mark: order.get(mark, 0))
        ]
    }


PAGE = Page("hardware", "Hardware", context)
