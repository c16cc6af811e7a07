"""The sheet of one part: mark, what it is and where it goes, its drawing, its machining as a table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.joints import TO_SLOT
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.caution import by_name, draw_cautions, in_full
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, text_width
from generator.drawings.profile import LETTERS
from generator.drawings.sheet import Table, draw_table, heading_line, paragraph, row_heights
from generator.figures.cautions import cautions_of
from generator.figures.rows.parts import OperationRow, PartRow
from generator.spec.labels import with_name

MARK_TEXT = 10.0
"""Height of a part's mark, ISO 3098-1: to be read from the other side of the bench."""
INSET = 3.0
"""Clear mm between the frame and what is written, and between a drawing and its table."""
HEADINGS = ("Face", "Along", "Across", "What", "Depth", "What for")
WIDTHS = (18.5, 18.5, 15.5, 39.5, 20.0, 64.0)
RIGHT = frozenset({1, 2})


@dataclass(frozen=True)
class PartFacts:
    """What a part's sheet says besides its drawing, as text; `goes_to` says sub-assembly and step."""

    row: PartRow
    marks: str
    size: str
    mass: str
    goes_to: str


def part_sheets(
    facts: PartFacts,
    draw: Callable[[bool, float], Drawing],
    holes: Sequence[OperationRow],
    ruler: Ruler,
    free: Extent,
) -> list[Canvas]:
    """The part's sheet, and a second one when its table does not fit below the drawing.

    `draw` makes the drawing, at most as high (mm) as its second value; True asks for one without what the table says.
    """
    canvas, keys, width = Canvas(), cautions_of(facts.row), free.width - 2 * INSET
    brief = by_name(keys, width)
    bottom = free.bottom - sum(caution.height for caution in brief)
    y = write_head(canvas, facts, ruler, free)
    table = hole_table(holes, ruler)
    tall = sum(row_heights(table)) + TABLE_HEAD if holes else 0.0
    drawing = draw(False, bottom - y)
    if holes and y + drawing.height + tall > bottom:
        drawing = draw(True, bottom - y - tall)
        if y + drawing.height + tall > bottom:  # a second sheet it must be: then this one is for the drawing
            drawing = draw(True, bottom - y)
    shapes = Canvas()
    shapes.add(*drawing.shapes)
    canvas.place(shapes, free.left + (free.width - drawing.width) / 2, y)
    y += drawing.height
    sheets, ends = [canvas], [y]
    while table.rows:
        count = rows_that_fit(table, bottom - y - TABLE_HEAD)
        if count:
            left = free.left + (free.width - sum(WIDTHS)) / 2
            ends[-1] = draw_table(sheets[-1], (left, y), table.taken(0, count))
            table = table.taken(count, len(table.rows))
        if table.rows:
            sheets.append(Canvas())
            y = heading_line(sheets[-1], (free.left + INSET, free.top + INSET), facts.marks, width)
            ends.append(y)
    for sheet, end in zip(sheets, ends, strict=True):
        full = in_full(keys, width)
        # what a full sheet leaves no room for is named, for a sheet goes to the machine alone
        cautions = full if end + sum(caution.height for caution in full) < free.bottom else brief
        top = free.bottom - sum(caution.height for caution in cautions)
        draw_cautions(sheet, (free.left + INSET, top), cautions)
    return sheets


TABLE_HEAD = 5.4
"""Room that a table's headings take."""


def rows_that_fit(table: Table, room: float) -> int:
    """How many rows of a table fit in a height `room` (mm)."""
    taken = 0.0
    for number, height in enumerate(row_heights(table)):
        taken += height
        if taken > room:
            return number
    return len(table.rows)


def write_head(canvas: Canvas, facts: PartFacts, ruler: Ruler, free: Extent) -> float:
    """The big mark at the left, the facts beside it. Returns where the drawing may begin."""
    row, left, top = facts.row, free.left + INSET, free.top + INSET
    canvas.text((left, top + MARK_TEXT), row.mark, MARK_TEXT, style="mark")
    beside = left + max(30.0, 1.12 * text_width(row.mark, MARK_TEXT) + 6.0)
    width = free.right - INSET - beside
    pieces = "1 piece" if row.count == 1 else f"{row.count} pieces"
    y = heading_line(canvas, (beside, top - 1.0), f"{row.name}, {pieces}", width)
    y = paragraph(
        canvas,
        (beside, y),
        f"{facts.size} · {with_name(row.made_of, row.material)} · {facts.mass} each",
        width,
    )
    lines = [f"Marks: {facts.marks}."] if row.count > 1 else []
    if row.other_hand:
        lines.append(f"Handed: {row.other_hand} is the mirror image of {row.mark}. Do not mix the two.")
    lines += [f"Goes to: {facts.goes_to}."] if facts.goes_to else []
    lines += fit_lines(row, ruler)
    for line in lines:
        y = paragraph(canvas, (beside, y), line, width, SMALL_TEXT)
    y = max(y, top + MARK_TEXT) + INSET
    canvas.line((free.left, y), (free.right, y), "thin")
    return y + 1.0


def fit_lines(row: PartRow, ruler: Ruler) -> list[str]:
    """Grain, tongues and notches in words."""
    lines = []
    if row.grain in ("length", "width"):
        lines.append(f"Grain along the {ruler.text(row.length if row.grain == 'length' else row.width)}.")
    if row.tongues and row.tongue_thickness is not None and row.rabbet_depth is not None:
        edges = ", ".join(f"{edge} {ruler.fine(size)}" for edge, size in row.tongues.items())
        lines.append(
            f"Tongues: {edges}; {ruler.fine(row.tongue_thickness)} thick, rabbets {ruler.fine(row.rabbet_depth)} deep "
            f"from both faces."
            if row.rabbet_depth
            else f"Edges that go in: {edges}; the whole {ruler.fine(row.tongue_thickness)} thick."
        )
    if row.floating:
        lines.append(
            f"It floats. Edges that move with the seasons: {', '.join(row.floating)}. Cut it to this size and coat it "
            "to its edges. Glue nothing but the middle of each end."
        )
    if row.mitres:
        lines.append(f"Mitre at 45 degrees: {', '.join(row.mitres)}. The length is that of the outer face.")
    if row.bands:
        thick = ruler.fine(next(iter(row.bands.values())))
        lines.append(
            f"Edge banding: {', '.join(row.bands)}; {thick} thick. Cut the board to {ruler.size(*row.cut_size)}. "
            "Put the banding on. Everything else is measured from the finished edges."
        )
    if row.notches:
        corners = ", ".join(f"{n.corner} {ruler.size(n.along, n.across)}" for n in row.notches)
        lines.append(f"Notches: {corners}.")
    return lines


def hole_table(holes: Sequence[OperationRow], ruler: Ruler) -> Table:
    """Face, place, size, depth and purpose of every operation; what is done at one place shares a row."""
    found: dict[tuple[str, tuple[Fraction, Fraction]], list[OperationRow]] = {}
    for op in holes:
        found.setdefault((op.face, op.at), []).append(op)
    rows = tuple(
        (
            f"{LETTERS[face]} {face}" if face in LETTERS else face,
            ruler.text(at[0]),
            ruler.text(at[1]),
            ", ".join(what(op, ruler) for op in here),
            ", ".join(depth(op, ruler) for op in here),
            "; ".join(dict.fromkeys(op.purpose for op in here)),
        )
        for (face, at), here in found.items()
    )
    return Table(HEADINGS, rows, WIDTHS, RIGHT)


def what(operation: OperationRow, ruler: Ruler) -> str:
    """The act and its size: `access hole Ø8`, `relief 40 × 16`; a thread has its name in its purpose."""
    if operation.op == "tap":
        return f"tap {operation.purpose.split(' for ')[0]}"
    if isinstance(operation.size, tuple):
        return f"{operation.op} {ruler.size(*operation.size)}"
    return f"{operation.op} {ruler.diameter(operation.size)}"


def depth(operation: OperationRow, ruler: Ruler) -> str:
    """How deep an operation goes."""
    if operation.depth is None:
        return "to the slot" if operation.op in TO_SLOT else "through"
    return ruler.text(operation.depth)
