"""Part index: every single piece by its mark, with where it goes, when, and where its sheet is."""

from __future__ import annotations

import re

from generator.drawings.dimensions import Ruler
from generator.figures.homes import homes
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """One row a piece, by letter and number: its part, its place, the step that takes it up (None for none)."""
    steps = homes(figures)
    rows = [
        {"mark": piece.mark, "part": row, "where": piece.where, "step": steps.get(piece.mark)}
        for row in figures.parts
        for piece in row.pieces
    ]
    return {"rows": sorted(rows, key=lambda row: _by_number(row["mark"]))}


def _by_number(mark: object) -> tuple[tuple[int, str], ...]:
    """B2 before B10."""
    pieces = re.findall(r"\d+|\D+", str(mark))
    return tuple((int(piece), "") if piece.isdigit() else (0, piece) for piece in pieces)


PAGE = Page("part-index", "Part index", "every piece by its mark: where it goes, and in which step", context)
