"""Shopping list: what to buy, by section."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Purchases by section in the order of buying, without empty sections; `unpriced` are those without a price."""
    order = ("Bars", "Timber", "Sheet goods", "Strips and angles", "Hardware", "Finishes")
    sections = {name: [row for row in figures.purchases if row.section == name] for name in order}
    return {
        "sections": {name: rows for name, rows in sections.items() if rows},
        "budget": figures.spec.budget,
        "left": (figures.spec.budget or 0) - figures.purchase_total.cost,
        "costly": sorted((row for row in figures.purchases if row.cost), key=lambda row: -(row.cost or 0))[
            :3
        ],
        "unpriced": [row for row in figures.purchases if row.cost is None],
    }


PAGE = Page("shopping-list", "Shopping list", "what to buy, with spares", context)
