"""Part sheets: each part with its drawing, its machining and where it goes; small ones share a page."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.paper import Paper
from generator.drawings.part import holes_of, part_in
from generator.drawings.part_marks import marks_of
from generator.drawings.part_sheet import PartDrawings, PartFacts, part_sheets
from generator.drawings.set_out import one_view, set_out_in
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.figures.homes import homes
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.figures.rows.parts import PartRow
from generator.prints.homes import places
from generator.prints.print import Contents, Print
from generator.units.sizes import KG_PER_LB


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """The sheets of all parts in the order of the bench."""
    return begun(figures, ruler)(paper, stamp)


def begun(figures: Figures, ruler: Ruler) -> Contents:
    """`contents` for one paper after the other: what is drawn of a part for one is there for the next."""
    steps = homes(figures)
    parts = [drawings(figures, row, steps, ruler) for row in figures.parts]

    def on(paper: Paper, stamp: Stamp) -> list[Content]:
        found = []
        for sheet in part_sheets(parts, ruler, room(paper)):
            names = ", ".join(dict.fromkeys(row.name for row in sheet.rows))
            heading = Heading("Part sheet", names, ", ".join(row.mark for row in sheet.rows))
            words = "; ".join(f"{row.mark}: {row.name}, {size(row, ruler)}" for row in sheet.rows)
            found.append(Content(sheet.canvas, heading, words))
        return found

    return on


def drawings(figures: Figures, row: PartRow, steps: dict[str, Step], ruler: Ruler) -> PartDrawings:
    """What is said and drawn of one part."""
    facts = PartFacts(row, marks_of(row), size(row, ruler), mass(row, ruler), places(row, steps))

    whole = one_view(figures, row)
    set_out, part = set_out_in(figures, row, ruler), part_in(figures, row, ruler)

    def draw(brief: bool, height: float) -> Drawing:
        on = set_out(height) if whole else None
        return on or part(brief, height)

    def draw_on(height: float) -> Drawing | None:
        return None if whole else set_out(height)

    return PartDrawings(facts, draw, draw_on, holes_of(row), whole)


def size(row: PartRow, ruler: Ruler) -> str:
    """Length of a bar; length, width and thickness of a board."""
    if row.is_bar:
        return f"{ruler.text(row.length)} {ruler.units} long"
    return f"{ruler.size(row.length, row.width)} × {ruler.fine(row.thickness)} {ruler.units}"


def mass(row: PartRow, ruler: Ruler) -> str:
    """Mass of one piece."""
    return f"{row.mass:.1f} kg" if ruler.units == "mm" else f"{row.mass / KG_PER_LB:.1f} lb"


PRINT = Print(
    "part-sheets",
    "Part sheets",
    "each part with drawing, hole table and step",
    contents,
    begun,
)
