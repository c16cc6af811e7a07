"""Sheets of parts: mark, what it is and where it goes, its drawing, its machining as a table, what comes onto it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import inf

from generator.bench.joints import TO_SLOT
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.caution import by_name, draw_cautions, in_full
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, text_width
from generator.drawings.part import PLAIN, is_plain, says_holes_below
from generator.drawings.sheet import Table, draw_table, heading_line, paragraph, row_heights
from generator.figures.cautions import CAUTIONS, cautions_of
from generator.figures.rows.parts import OperationRow, PartRow
from generator.spec.labels import with_name

MARK_TEXT = 10.0
"""Height of a part's mark, ISO 3098-1: to be read from the other side of the bench."""
INSET = 3.0
"""Clear mm between the frame and what is written, and between a drawing and its table."""
WIDTHS = (18.5, 18.5, 18.5, 37.5, 20.0, 63.0)
RIGHT = frozenset({1, 2})
LITTLE = 1.6
"""A drawing may be this many times too high for half a sheet and is still made smaller for it."""
LOOK_BACK = 3
"""A part may stand on a sheet so far before the last one, where that has room."""
SMALLER = (120.0, 105.0, 90.0, 78.0)
"""Heights (mm) to which a part's drawing is made smaller for what comes onto it to be on the same sheet."""
LEVELS = ("danger", "warning", "caution")


@dataclass(frozen=True)
class PartFacts:
    """What a part's sheet says besides its drawing, as text; `goes_to` says sub-assembly and step."""

    row: PartRow
    marks: str
    size: str
    mass: str
    goes_to: str


@dataclass(frozen=True)
class PartDrawings:
    """A part with what draws it: `draw` gives its drawing, at most as high (mm) as its second value.

    True as the first value asks for one without what the hole table says. `draw_on` gives what comes onto its faces.
    """

    facts: PartFacts
    draw: Callable[[bool, float], Drawing]
    draw_on: Callable[[float], Drawing | None]
    holes: Sequence[OperationRow]
    whole: bool = False
    """Whether the first drawing has what comes onto it."""


@dataclass
class PartsSheet:
    """A sheet with the parts that are on it, filled down to `end` (mm)."""

    canvas: Canvas
    rows: list[PartRow]
    end: float


def part_sheets(parts: Sequence[PartDrawings], ruler: Ruler, free: Extent) -> list[PartsSheet]:
    """The parts nearly in their order, as many on a sheet as it holds with the names of their cautions at its foot."""
    sheets: list[PartsSheet] = []
    for part in parts:
        blocks = part_blocks(part, ruler, free)
        # what goes on stays behind its beginning
        open_sheets = sheets[-LOOK_BACK:] if len(blocks) == 1 else sheets[-1:]
        for block in blocks:
            sheet = next((each for each in open_sheets if holds(each, block, free)), None)
            if sheet is None:
                sheets.append(block)
            else:
                put(sheet, block, free)
            open_sheets = sheets[-1:]
    for sheet in sheets:
        warn(sheet, free)
    return sheets


def holds(sheet: PartsSheet, block: PartsSheet, free: Extent) -> bool:
    """Whether a sheet has room for what is in a block, above the names of all cautions."""
    foot = foot_height([*sheet.rows, *block.rows], free)
    return sheet.end + INSET + block.end - free.top + foot <= free.bottom


def put(sheet: PartsSheet, block: PartsSheet, free: Extent) -> None:
    """A block below all that is on a sheet, with a line between."""
    y = sheet.end + INSET
    sheet.canvas.line((free.left, y), (free.right, y), "frame")
    sheet.canvas.place(block.canvas, 0.0, y - free.top)
    sheet.end = y + block.end - free.top
    sheet.rows += [row for row in block.rows if row not in sheet.rows]


def all_cautions(rows: Sequence[PartRow]) -> tuple[str, ...]:
    """The cautions of all parts, the gravest first."""
    found = dict.fromkeys(key for row in rows for key in cautions_of(row))
    return tuple(sorted(found, key=lambda key: LEVELS.index(CAUTIONS[key].level)))


def foot_height(rows: Sequence[PartRow], free: Extent) -> float:
    """The least room for the cautions of these parts (mm)."""
    return sum(caution.height for caution in by_name(all_cautions(rows), free.width - 2 * INSET))


def warn(sheet: PartsSheet, free: Extent) -> None:
    """Cautions at the foot: in full, or by name where the sheet is full, for a sheet goes to the machine alone."""
    keys, width = all_cautions(sheet.rows), free.width - 2 * INSET
    full = in_full(keys, width)
    fits = sheet.end + sum(caution.height for caution in full) < free.bottom
    cautions = full if fits else by_name(keys, width)
    top = free.bottom - sum(caution.height for caution in cautions)
    draw_cautions(sheet.canvas, (free.left + INSET, top), cautions)


def part_blocks(part: PartDrawings, ruler: Ruler, free: Extent) -> list[PartsSheet]:
    """A part from the top of a sheet; further ones for what does not fit below its drawing, each with its mark."""
    facts, holes = part.facts, part.holes
    bottom = free.bottom - foot_height([facts.row], free)
    canvas = Canvas()
    y = write_head(canvas, facts, ruler, free)
    table = hole_table(facts.row, holes, ruler)
    tall = sum(row_heights(table)) + TABLE_HEAD if holes else 0.0
    drawing, on = both_drawings(part, bottom - y, tall)
    if on is None:
        half = (bottom - free.top - INSET) / 2 - (y - free.top) - tall
        drawing = for_half(part, drawing, half)
    if holes and y + drawing.height + tall > bottom:
        drawing = part.draw(True, bottom - y - tall)
        if y + drawing.height + tall > bottom:  # a second sheet it must be: then this one is for the drawing
            drawing = part.draw(True, bottom - y)
    blocks = [PartsSheet(canvas, [facts.row], place_drawing(canvas, drawing, y, free))]
    while table.rows:
        last = blocks[-1]
        count = rows_that_fit(table, bottom - last.end - TABLE_HEAD)
        if count:
            left = free.left + (free.width - sum(WIDTHS)) / 2
            last.end = draw_table(last.canvas, (left, last.end), table.taken(0, count))
            table = table.taken(count, len(table.rows))
        if table.rows:
            blocks.append(next_block(facts, free))
    if on:
        if blocks[-1].end + on.height > bottom:
            blocks.append(next_block(facts, free))
            on = part.draw_on(bottom - blocks[-1].end) or on
        blocks[-1].end = place_drawing(blocks[-1].canvas, on, blocks[-1].end, free)
    return blocks


def both_drawings(part: PartDrawings, room: float, tall: float) -> tuple[Drawing, Drawing | None]:
    """The part and what comes onto it, in a height `room` (mm) with a table so `tall` where that can be had.

    Otherwise both are as large as alone.
    """
    row = part.facts.row
    first = part.draw(says_holes_below(row), PLAIN if is_plain(row) and not part.whole else room)
    on = part.draw_on(room)
    if on is None or first.height + on.height + tall <= room:
        return first, on
    for most in SMALLER:
        drawing = part.draw(False, most)
        on = part.draw_on(room - drawing.height - tall) or on
        if drawing.height + on.height + tall <= room:
            return drawing, on
    return first, part.draw_on(inf)


def for_half(part: PartDrawings, drawing: Drawing, height: float) -> Drawing:
    """The drawing made a little smaller where the part then takes half a sheet, `height` (mm) of it the drawing."""
    if not height < drawing.height < LITTLE * height:
        return drawing
    smaller = part.draw(says_holes_below(part.facts.row), height)
    return smaller if smaller.height <= height else drawing


def next_block(facts: PartFacts, free: Extent) -> PartsSheet:
    """What follows of a part on another sheet, under its marks."""
    canvas, width = Canvas(), free.width - 2 * INSET
    at = (free.left + INSET, free.top + INSET)
    return PartsSheet(canvas, [facts.row], heading_line(canvas, at, facts.marks, width))


def place_drawing(canvas: Canvas, drawing: Drawing, y: float, free: Extent) -> float:
    """A drawing in the middle of the sheet from `y` down. Returns its lower edge."""
    shapes = Canvas()
    shapes.add(*drawing.shapes)
    canvas.place(shapes, free.left + (free.width - drawing.width) / 2, y)
    return y + drawing.height


TABLE_HEAD = 9.2
"""Room that a table's headings take, in two lines."""


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


def hole_table(row: PartRow, holes: Sequence[OperationRow], ruler: Ruler) -> Table:
    """Face, place, size, depth and purpose of every operation; what is done at one place shares a row."""
    found: dict[tuple[str, tuple[Fraction, Fraction]], list[OperationRow]] = {}
    for op in holes:
        found.setdefault((op.face, op.at), []).append(op)
    rows = tuple(
        (
            face,
            ruler.text(at[0]),
            ruler.text(at[1]),
            ", ".join(what(op, ruler) for op in here),
            ", ".join(depth(op, ruler) for op in here),
            "; ".join(dict.fromkeys(op.purpose for op in here)),
        )
        for (face, at), here in found.items()
    )
    along, across = (words.split()[0] for words in row.datum)
    headings = ("Face", f"From {along}", f"From {across}", "What", "Depth", "What for")
    return Table(headings, rows, WIDTHS, RIGHT)


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
