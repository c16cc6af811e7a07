"""Part index: every single piece by its mark, with where it goes, when, and where its sheet is."""

from __future__ import annotations

import re

from generator.drawings.dimensions import Ruler
from generator.drawings.thumbnail import thumbnails
from generator.figures.homes import homes
from generator.figures.model import Figures
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """One row a piece, by letter and number: its part, its place, the step that takes it up (None for none).

    Pieces alike have one picture, which is written for the `first` of them.
    """
    steps, pictures = homes(figures), thumbnails(figures)
    pieces = [(piece, row) for row in figures.parts for piece in row.pieces]
    pieces.sort(key=lambda pair: _by_number(pair[0].mark))
    first = {row.mark: piece.mark for piece, row in reversed(pieces)}
    rows = [
        {
            "mark": piece.mark,
            "part": row,
            "picture": pictures[row.mark],
            "where": piece.where,
            "step": steps.get(piece.mark),
        }
        for piece, row in pieces
    ]
    return {"rows": rows, "first": set(first.values())}


def _by_number(mark: object) -> tuple[tuple[int, str], ...]:
    """B2 before B10."""
    pieces = re.findall(r"\d+|\D+", str(mark))
    return tuple((int(piece), "") if piece.isdigit() else (0, piece) for piece in pieces)


PAGE = Page("part-index", "Part index", "every piece by its mark: where it goes, and in which step", context)
