"""The drawing of one flat part: outline with notches, holes from the datum corner, tongue enlarged.

A strip and an angle are the plain case: a rectangle with its sizes.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from math import inf

from generator.bench.frames.trays import HALF_LAP
from generator.bench.openings import CUT_OUT
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import ARROW, ROW, Row, Ruler, Tick, arrow, overall, running
from generator.drawings.extent import Extent, Point, around
from generator.drawings.face import SHEET_WIDTH, Face, from_side, outline
from generator.drawings.face_sign import WIDTH as CUBE
from generator.drawings.face_sign import draw_cube
from generator.drawings.hole_calls import call_holes, draw_hole
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.drawings.lettering import PAGE_WIDTH, fitting, notes
from generator.drawings.panel_words import (
    NEAR_FACES,
    cut_words,
    describe,
    facts,
    grooves,
    is_from_behind,
    plane_of,
    runs_through,
)
from generator.drawings.part_marks import pieces
from generator.drawings.shapes import Text
from generator.drawings.tongue import draw_tongue
from generator.figures.rows.parts import NotchRow, OperationRow, PartRow

DETAIL_GAP = 12.0
"""Clear mm between the part and the section of its tongue."""

#: Shares of an edge at which its section may be cut, the first that is free of lettering.
PLANE_SHARES = tuple(share / 20 for share in (4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16))
#: The two ends of the cutting plane: mm inward of the edge, and which way the wide stroke runs.
PLANE_INSIDE, PLANE_OUTSIDE = (12.0, 1.0), (-2.5, -1.0)


def draw_panel(
    row: PartRow, ruler: Ruler, *, brief: bool = False, height: float = inf, section: Canvas | None = None
) -> Drawing:
    """A sheet part, strip or angle with all its sizes; tongues, or a `section` that is given, enlarged beside it.

    A `brief` drawing leaves out what a hole table says. The section is beside the part, or below a wide one.
    The drawing is at most `height` mm high where that can be had.
    """
    return panel_in(row, ruler, section)(brief, height)


def panel_in(row: PartRow, ruler: Ruler, section: Canvas | None = None) -> Callable[[bool, float], Drawing]:
    """`draw_panel` for several heights (mm), brief or not: what was drawn for one is there for the next."""

    @cache
    def sized(size: float, brief: bool, below: bool) -> Drawing:
        return panel_drawing(Face(row, size), ruler, brief, below, section)

    @cache
    def draw(brief: bool, height: float) -> Drawing:
        def fit(below: bool) -> Drawing:
            largest = Face(row, SHEET_WIDTH).width
            return fitting(lambda size: sized(size, brief, below), largest, height=height)

        drawing = fit(below=False)
        return fit(below=True) if drawing.width > PAGE_WIDTH and (row.tongues or section) else drawing

    return draw


def panel_drawing(
    face: Face, ruler: Ruler, brief: bool, below: bool, section: Canvas | None = None
) -> Drawing:
    """The part as large as its face; its section below or beside it."""
    canvas, row = Canvas(), face.row
    canvas.polygon(outline(face), "fill-bar" if row.metal else "fill-wood")
    draw_shoulders(canvas, face)
    draw_cuts(canvas, face)
    name_notches(canvas, face, ruler)
    name_edges(canvas, face)
    draw_grain(canvas, face)
    dimension_cuts(canvas, face, ruler, brief)
    name_cuts(canvas, face)
    if brief:
        holes = ((operation, face.box(operation)) for operation in row.operations)
        call_holes(canvas, holes, Extent(0.0, -face.height, face.width, 0.0), ruler)
    under = Row("x", canvas.extents().bottom + ROW, 1)
    overall(canvas, under, 0.0, face.width, ruler.text(face.size[0]), foot=0.0)
    beside = Row("y", canvas.extents().right + ROW, 1)
    overall(canvas, beside, -face.height, 0.0, ruler.text(face.size[1]), foot=face.width)
    part = canvas.extents()
    at = (0.0, part.bottom + 8.0)
    if row.tongues and row.tongue_thickness is not None:
        cutting_plane(canvas, face)
        section = Canvas()
        draw_tongue(section, row, ruler)
    if section is not None:
        box = section.extents()
        x, y = (0.0, part.bottom + DETAIL_GAP) if below else (part.right + DETAIL_GAP, -face.height)
        canvas.place(section, x - box.left, y - box.top)
        at = (x + box.width + DETAIL_GAP / 2, y + TEXT) if below else (0.0, canvas.extents().bottom + 8.0)
    if near := NEAR_FACES.get(plane_of(face)):
        draw_cube(canvas, (at[0], at[1] + 0.4), near)
        at = (at[0] + CUBE + 2.0, at[1])
    notes(canvas, at, pieces(row), facts(face, ruler))
    return canvas.finish(*panel_named(row, ruler), describe(face, ruler))


def panel_named(row: PartRow, ruler: Ruler) -> tuple[str, str]:
    """Id and title of the drawing."""
    return f"part-{row.mark}", f"{row.mark}: {row.name}, {ruler.size(row.length, row.width)}"


def draw_shoulders(canvas: Canvas, face: Face) -> None:
    """A dashed line where each tongue ends: the bar's face is there. It stops at the corners' notches."""
    for side, edge in face.edges.items():
        if tongue := face.row.tongues.get(edge):
            inward = float(tongue) * face.scales[0 if side in ("left", "right") else 1]
            canvas.line(*_between_notches(face, side, inward), "hidden")


def _between_notches(face: Face, side: str, inward: float) -> tuple[Point, Point]:
    """Both ends of a line along an edge, `inward` of it (mm on the paper), that stops at the corners' notches."""
    upright = side in ("left", "right")
    whole = face.height if upright else face.width
    low, high = 0.0, whole
    for notch in face.row.notches:
        sides, box = face.sides_of(notch.corner), notch_box(face, notch)
        if side in sides:
            taken = box.height if upright else box.width
            if sides[1 if upright else 0] in ("bottom", "left"):
                low = taken
            else:
                high = whole - taken
    start, end = (from_side(side, at, inward, face.width, face.height) for at in (low, high))
    return start, end


def cutting_plane(canvas: Canvas, face: Face) -> None:
    """Where the section A-A is cut: a chain line with wide ends through one tongued edge, ISO 128-3."""
    side = next(side for side in ("right", "left", "top", "bottom") if face.edges[side] in face.row.tongues)
    upright = side in ("left", "right")
    whole = face.height if upright else face.width
    places = [whole * share for share in PLANE_SHARES]
    along = next((at for at in places if _plane_is_free(canvas, face, side, at)), places[0])
    for inward, off in (PLANE_INSIDE, PLANE_OUTSIDE):
        x, y = from_side(side, along, inward, face.width, face.height)
        wide = from_side(side, along, inward - 2.0 * off, face.width, face.height)
        tail = (x, y + ARROW + 1.0) if upright else (x + ARROW + 1.0, y)
        canvas.line((x, y), wide, "outline")
        canvas.line((x, y), tail, "dimension")
        arrow(canvas, (x, y), tail)
        canvas.text_if_free(_plane_letter((x, y), upright))
    ends = (
        from_side(side, along, inward, face.width, face.height) for inward, _ in (PLANE_INSIDE, PLANE_OUTSIDE)
    )
    start, end = ends
    canvas.line(start, end, "centre")


def _plane_is_free(canvas: Canvas, face: Face, side: str, along: float) -> bool:
    """Whether neither the line of the cutting plane nor its arrows and letters touch other lettering."""
    (inside, _), (outside, _) = PLANE_INSIDE, PLANE_OUTSIDE
    upright = side in ("left", "right")
    ends = [from_side(side, along, inward, face.width, face.height) for inward in (inside, outside)]
    marks = [_plane_letter(end, upright).extent() for end in ends]
    arms = [around((end, (mark.left, mark.bottom))) for end, mark in zip(ends, marks, strict=True)]
    return all(canvas.is_free(area.grown(0.2)) for area in (around(ends), *marks, *arms))


def _plane_letter(end: Point, upright: bool) -> Text:
    """The letter at the arrow at one end of the cutting plane."""
    x, y = end
    at = (x + 0.8, y + ARROW + 1.0) if upright else (x + ARROW + 1.4, y + SMALL_TEXT / 2)
    return Text(at, "A", SMALL_TEXT, style="mark")


def draw_cuts(canvas: Canvas, face: Face) -> None:
    """Holes and cut-outs within the outline; those that reach the edge are part of it."""
    for operation in face.row.operations:
        box = face.box(operation)
        if operation.op == HALF_LAP:
            side = "left" if box.left < face.width / 2 else "right"
            inward = box.width
            canvas.line(
                *_between_notches(face, side, inward), "hidden" if is_from_behind(face, operation) else "thin"
            )
        elif not isinstance(operation.size, tuple):
            style = "hidden" if is_from_behind(face, operation) else "hole"
            draw_hole(canvas, box.centre, max(box.width / 2, 0.8), operation, style)
        elif operation.depth is None and Extent(0.02, 0.02 - face.height, face.width - 0.02, -0.02).contains(
            box
        ):
            canvas.rect(box.left, box.top, box.width, box.height, "hole")
        elif operation.depth is not None:
            canvas.rect(box.left, box.top, box.width, box.height, "thin")


# --- lettering


def notch_box(face: Face, notch: NotchRow) -> Extent:
    """The rectangle on the paper that a notch takes out."""
    sides = face.sides_of(notch.corner)
    a, b = face.measured((notch.along, notch.across))
    width, height = float(a) * face.scales[0], float(b) * face.scales[1]
    left = 0.0 if sides[0] == "left" else face.width - width
    top = -height if sides[1] == "bottom" else -face.height
    return Extent(left, top, left + width, top + height)


def name_notches(canvas: Canvas, face: Face, ruler: Ruler) -> None:
    """The size of each notch (rightward × upward) inside the part, beside it, with a short leader."""
    for notch in face.row.notches:
        box, sides = notch_box(face, notch), face.sides_of(notch.corner)
        size = ruler.size(*face.measured((notch.along, notch.across)))
        inward = 1 if sides[0] == "left" else -1
        upward = -1 if sides[1] == "bottom" else 1
        tip = (box.right if inward == 1 else box.left, box.top if upward == -1 else box.bottom)
        anchor = "start" if inward == 1 else "end"
        for lift in (6.0, 11.0, 16.0, 21.0):
            seat = (tip[0] + inward * 5.0, tip[1] + upward * lift)
            at = (seat[0] + inward * 0.8, seat[1] + SMALL_TEXT / 2)
            if canvas.text_if_free(Text(at, size, SMALL_TEXT, anchor)):
                canvas.line(seat, tip, "dimension")
                arrow(canvas, tip, seat)
                break


def name_cuts(canvas: Canvas, face: Face) -> None:
    """What each opening within the board is for: in it, below it or above it, where there is room."""
    room = Extent(0.0, -face.height, face.width, 0.0)
    for operation in face.row.operations:
        box = face.box(operation)
        if operation.op != CUT_OUT or operation.depth is not None or not room.contains(box):
            continue
        x, y = box.centre
        wide = Text((0.0, 0.0), operation.purpose, SMALL_TEXT, "middle", style="note").extent().width
        inside = box.width > wide + 2.0 and box.height > SMALL_TEXT + 1.0
        for at in (y + SMALL_TEXT / 2, box.bottom + SMALL_TEXT + 1.0, box.top - 1.5):
            text = Text((x, at), operation.purpose, SMALL_TEXT, "middle", style="note")
            if (inside or at != y + SMALL_TEXT / 2) and canvas.text_if_free(text, room):
                break


def name_edges(canvas: Canvas, face: Face) -> None:
    """The name of each edge, written inside the part along it, where there is room."""
    room = Extent(0.0, -face.height, face.width, 0.0)
    x, y = face.width / 2, -face.height / 2
    inset = 4.0 + max((float(t) * face.scales[0] for t in face.row.tongues.values()), default=0.0)
    places = {
        "left": ((inset + SMALL_TEXT, y), True),
        "right": ((face.width - inset, y), True),
        "bottom": ((x, -inset), False),
        "top": ((x, -face.height + inset + SMALL_TEXT), False),
    }
    for side, (at, upward) in places.items():
        edge = face.edges[side]
        name = f"{edge}, banding" if edge in face.row.bands else edge
        text = Text(at, name, SMALL_TEXT, "middle", upward, "note")
        shifts = (0.0, 0.1, -0.1, 0.2, -0.2, 0.35, -0.35)
        moves = [(0.0, s * face.height) if upward else (s * face.width, 0.0) for s in shifts]
        cuts = [face.box(operation).grown(1.0) for operation in face.row.operations]
        for moved in (text.moved(*move) for move in moves):
            clear = not any(moved.extent().overlaps(cut) for cut in cuts)
            if clear and canvas.text_if_free(moved, room):
                break


def draw_grain(canvas: Canvas, face: Face) -> None:
    """A double arrow along the grain, where the part is big enough to hold it."""
    grain, row = face.row.grain, face.row
    axis = {"length": row.along, "width": row.across}.get(grain, grain)
    if axis not in (face.right, face.up) or face.height < 30.0 or face.width < 30.0:
        return
    reach = 14.0 if min(face.width, face.height) > 60 else 8.0
    cuts = [face.box(operation).grown(1.0) for operation in row.operations]

    def ends_at(x: float, y: float) -> tuple[Point, Point]:
        return ((x - reach, y), (x + reach, y)) if axis == face.right else ((x, y - reach), (x, y + reach))

    def is_clear(x: float, y: float) -> bool:
        area = around((*ends_at(x, y), (x - SMALL_TEXT * 1.5, y - SMALL_TEXT * 1.5)))
        return canvas.is_free(area) and not any(area.overlaps(cut) for cut in cuts)

    places = [
        (face.width * a, -face.height * b)
        for b in (0.36, 0.22, 0.64, 0.78, 0.5)
        for a in (0.5, 0.3, 0.7, 0.85)
    ]
    x, y = next((place for place in places if is_clear(*place)), places[0])
    ends = ends_at(x, y)
    canvas.line(*ends, "dimension")
    arrow(canvas, ends[0], ends[1])
    arrow(canvas, ends[1], ends[0])
    at = (x, y - 1.5) if axis == face.right else (x - 1.5, y)
    canvas.text(at, "grain", SMALL_TEXT, "middle", upward=axis == face.up, style="note")


def dimension_cuts(canvas: Canvas, face: Face, ruler: Ruler, brief: bool) -> None:
    """Absolute distances of every hole and cut-out from the left and the bottom edge, in rows outside."""
    operations = [operation for operation in face.row.operations if operation.op != HALF_LAP]
    if not operations:
        return
    columns: dict[Fraction, list[OperationRow]] = {}
    rows: dict[Fraction, list[OperationRow]] = {}
    for operation in operations:
        x, y = face.measured(operation.at)
        if runs_through(face, operation, 0):
            rows.setdefault(y, []).insert(0, operation)
            continue
        columns.setdefault(x, []).append(operation)
        if not runs_through(face, operation, 1):
            rows.setdefault(y, []).append(operation)
    across = [
        Tick(float(x) * face.scales[0], ruler.text(x), "" if brief else cut_words(them, face, ruler))
        for x, them in sorted(columns.items())
    ]
    upward = [
        Tick(
            -float(y) * face.scales[1],
            ruler.text(y),
            "" if brief else cut_words(grooves(face, them), face, ruler),
        )
        for y, them in sorted(rows.items())
    ]
    above, beside = Row("x", -face.height - 6.0, -1), Row("y", -6.0, -1)
    if across:
        running(canvas, above, 0.0, across, -face.height, zero_note=face.edges["left"])
    if upward:
        running(canvas, beside, 0.0, upward, 0.0, zero_note=face.edges["bottom"])
