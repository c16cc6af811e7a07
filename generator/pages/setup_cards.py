"""Set-up cards: each setting of a machine with its picture, to sign before the parts are cut."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.setup_sketch import draw_sketch
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """The picture of each card by its key, None for a card that has none."""
    return {"pictures": {card.key: draw_sketch(card, ruler) for card in figures.setups}}


PAGE = Page(
    "set-up-cards",
    "Set-up cards",
    "each setting of a machine, with its picture and test piece, to sign before you cut",
    context,
)
