"""Shopping list: what to buy, by section."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Purchases by section in the order of buying; sections with nothing in them are left out."""
    order = ("Bars", "Sheet goods", "Strips and angles", "Hardware")
    sections = {name: [row for row in figures.purchases if row.section == name] for name in order}
    return {"sections": {name: rows for name, rows in sections.items() if rows}}


PAGE = Page("shopping-list", "Shopping list", "what to buy, with spares", context)
