"""Cut list: every distinct part with its count and sizes, by material."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.thumbnail import thumbnails
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Sections with the part rows that each one lists, the longest first as they are cut."""
    rows = {row.mark: row for row in figures.parts}
    return {
        "pictures": thumbnails(figures),
        "sections": [
            {
                "facts": section,
                "rows": sorted(
                    (rows[mark] for mark in section.marks),
                    key=lambda row: (-max(row.cut_size), -min(row.cut_size)),
                ),
            }
            for section in figures.cut_sections
        ],
    }


PAGE = Page("cut-list", "Cut list", "every part with its sizes", context)
