"""Part sheets: one part a page, with its drawing, its machining and where it goes."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.paper import Paper
from generator.drawings.part import draw_part, holes_of
from generator.drawings.part_sheet import PartFacts, part_sheets
from generator.drawings.profile import marks_of
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.figures.homes import homes
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.prints.homes import places
from generator.prints.print import Print
from generator.units.sizes import KG_PER_LB


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """The sheets of all parts in the order of the bench."""
    free, steps = room(paper), homes(figures)
    found = []
    for row in figures.parts:
        facts = PartFacts(row, marks_of(row), size(row, ruler), mass(row, ruler), places(row, steps))

        def draw(brief: bool, height: float, row: PartRow = row) -> Drawing:
            return draw_part(figures, row, ruler, brief, height)

        heading = Heading("Part sheet", row.name, row.mark)
        words = f"{row.mark}: {row.name}, {facts.size}"
        for canvas in part_sheets(facts, draw, holes_of(row), ruler, free):
            found.append(Content(canvas, heading, words))
    return found


def size(row: PartRow, ruler: Ruler) -> str:
    """Length of a bar; length, width and thickness of a board."""
    if row.is_bar:
        return f"{ruler.text(row.length)} {ruler.units} long"
    return f"{ruler.size(row.length, row.width)} × {ruler.fine(row.thickness)} {ruler.units}"


def mass(row: PartRow, ruler: Ruler) -> str:
    """Mass of one piece."""
    return f"{row.mass:.1f} kg" if ruler.units == "mm" else f"{row.mass / KG_PER_LB:.1f} lb"


PRINT = Print("part-sheets", "Part sheets", "one part on each page: drawing, hole table, step", contents)
