"""Set-up cards: one setting a page, to be signed before parts are cut."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.dimensions import Ruler
from generator.drawings.paper import Paper
from generator.drawings.part_marks import runs_of
from generator.drawings.setup_card import draw_setup
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.figures.model import Figures
from generator.prints.print import Print

DATUM = "Sign before you cut. Measure from the datum end."


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """Every card in the order of the work."""
    free, found = room(paper), []
    for card in figures.setups:
        heading = Heading("Set-up card", card.title, f"Card {card.n}", scale="–", datum=DATUM)
        for canvas in draw_setup(card, runs_of(card.marks), ruler, free):
            found.append(Content(canvas, heading, f"Set-up card {card.n}: {card.title}"))
    return found


PRINT = Print("set-up-cards", "Set-up cards", "one setting a page, with test piece and signature", contents)
