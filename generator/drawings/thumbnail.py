"""Small pictures of parts for lists: a bar's section with its machined faces and its side, a board's face.

All is in mm of paper. A part keeps its proportions; bars are to one scale, so that the longer one is longer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from generator.bench.piece import TENONS
from generator.drawings.bar_end import END_VIEWS, fill_of
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point
from generator.drawings.face import Face, from_side, outline
from generator.drawings.profile import breadth, breadth_of, end_operations, tenon_length
from generator.drawings.shapes import Shape
from generator.drawings.slot_section import slotted_outline
from generator.figures.model import Figures
from generator.figures.rows.goods import GoodsFacts
from generator.figures.rows.parts import OperationRow, PartRow
from generator.geometry import FACES

HEIGHT = 8.0
BAR_WIDTH, BOARD_WIDTH = 36.0, 20.0
"""Size of the pictures: 30 pixels high on a screen."""
EDGE = 0.3
"""What stays clear around a part, for its outline."""
SECTION, SIDE_AT = 5.4, 9.0
"""Larger side of a bar's section, and where its side view begins."""
POINTER = 1.0
"""Size of the triangle at a machined face."""
LEAST_HOLE, LEAST_TONGUE = 0.5, 0.45
"""A smaller hole is drawn as a dot of this size; a tongue's shoulder is drawn at least so far from its edge."""
DOT = 0.3


@dataclass(frozen=True)
class Thumbnail:
    """Shapes on a paper of `width` by `height` mm. It adds nothing to the row that it is in but a look."""

    name: str
    width: float
    height: float
    shapes: tuple[Shape, ...]


def thumbnails(figures: Figures) -> Mapping[str, Thumbnail]:
    """The picture of each distinct part, by its mark."""
    longest = max((float(row.length) for row in figures.parts if row.is_bar), default=1.0)
    scale = (BAR_WIDTH - SIDE_AT - EDGE) / longest
    return {row.mark: draw_thumbnail(row, figures.goods, scale) for row in figures.parts}


def draw_thumbnail(row: PartRow, goods: GoodsFacts, scale: float) -> Thumbnail:
    """The picture of one part; a bar's side at this scale."""
    canvas, width = Canvas(), BAR_WIDTH if row.is_bar else BOARD_WIDTH
    if row.is_bar:
        _section(canvas, row, goods)
        _side(canvas, row, scale)
    else:
        _board(canvas, row)
    return Thumbnail(row.mark, width, HEIGHT, tuple(canvas.shapes))


def _section(canvas: Canvas, row: PartRow, goods: GoodsFacts) -> None:
    """The section from the end of the part's sheet, with a triangle at each machined face."""
    _, names = END_VIEWS[row.along]
    sizes = (breadth_of(row, names[0]), breadth_of(row, names[1]))
    scale = SECTION / float(max(sizes))
    wide, high = (float(size) * scale for size in sizes)
    x, y = SIDE_AT / 2 - EDGE, HEIGHT / 2
    slot = (goods.slot_opening, goods.slot_depth, goods.slot_lip, goods.slot_undercut)
    if row.metal and all(size is not None for size in slot):
        points = slotted_outline(wide, *(float(size or 0) * scale for size in slot))
        canvas.polygon([(x - wide / 2 + dx, y - high / 2 + dy) for dx, dy in points], fill_of(row))
    else:
        canvas.rect(x - wide / 2, y - high / 2, wide, high, fill_of(row))
    bore = next((each for each in end_operations(row) if each.op not in TENONS), None)
    if bore is not None:
        canvas.circle((x, y), max(breadth(bore) * scale / 2, DOT), "arrow")
    elif row.metal and goods.bore is not None:
        canvas.circle((x, y), float(goods.bore) * scale / 2, "hole")
    machined = {operation.face for operation in row.operations}
    for turn, name in enumerate(names):
        if name in machined:
            dx, dy = ((0, -1), (1, 0), (0, 1), (-1, 0))[turn]
            far = (wide if dx else high) / 2 + 0.2
            _pointer(canvas, (x + dx * far, y + dy * far), (dx, dy))


def _pointer(canvas: Canvas, tip: Point, away: tuple[int, int]) -> None:
    (x, y), (dx, dy) = tip, away
    foot, half = (x + dx * POINTER, y + dy * POINTER), POINTER / 2
    ends = ((foot[0] + dy * half, foot[1] + dx * half), (foot[0] - dy * half, foot[1] - dx * half))
    canvas.polygon((tip, *ends), "arrow")


def _side(canvas: Canvas, row: PartRow, scale: float) -> None:
    """The face with the most machining, its datum end at the left, tenons narrower than the bar."""
    _, names = END_VIEWS[row.along]
    face = max(names, key=lambda name: sum(each.face == name for each in row.operations))
    low, high = (float(tenon_length(row, end)) * scale for end in FACES[row.along])
    length, broad = float(row.length) * scale, float(breadth_of(row, face)) * scale
    top = (HEIGHT - broad) / 2
    if low or high:
        canvas.rect(SIDE_AT, top + broad / 3, length, broad / 3, fill_of(row))
    canvas.rect(SIDE_AT + low, top, length - low - high, broad, fill_of(row))
    for operation in row.operations:
        if operation.face == face:
            at = (SIDE_AT + float(operation.at[0]) * scale, top + broad - float(operation.at[1]) * scale)
            _cut(canvas, operation, at, scale)


def _cut(canvas: Canvas, operation: OperationRow, at: Point, scale: float, turned: bool = False) -> None:
    """A hole or a rectangle; a hole too small to be seen as a dot."""
    x, y = at
    if isinstance(operation.size, tuple):
        sides = operation.size[::-1] if turned else operation.size
        width, height = (float(side) * scale for side in sides)
        canvas.rect(x - width / 2, y - height / 2, width, height, "hole")
    elif float(operation.size) * scale < LEAST_HOLE:
        canvas.line((x - DOT / 2, y), (x + DOT / 2, y), "outline")
    else:
        canvas.circle(at, float(operation.size) * scale / 2, "hole")


def _board(canvas: Canvas, row: PartRow) -> None:
    """The face as on the cut list, its length lying: notches, openings, holes, the shoulders of its tongues."""
    face = Face(row)
    scale = min((BOARD_WIDTH - 2 * EDGE) / face.width, (HEIGHT - 2 * EDGE) / face.height)
    foot = (HEIGHT + face.height * scale) / 2

    def paper(point: Point) -> Point:
        return (EDGE + point[0] * scale, foot + point[1] * scale)

    canvas.polygon([paper(point) for point in outline(face)], "fill-bar" if row.metal else "fill-wood")
    for side, edge in face.edges.items():
        if edge in row.tongues:
            inward = max(float(row.tongues[edge]), LEAST_TONGUE / scale)
            whole = face.height if side in ("left", "right") else face.width
            start, end = (paper(from_side(side, at, inward, face.width, face.height)) for at in (0.0, whole))
            canvas.line(start, end, "thin")
    whole_face = Extent(0.0, -face.height, face.width, 0.0).grown(-0.01)
    dots = [each for each in row.operations if _is_inside(face, each, whole_face)]
    # circles first: all dots are then one path
    for operation in sorted(dots, key=lambda each: breadth(each) * scale < LEAST_HOLE):
        _cut(canvas, operation, paper(face.at(*operation.at)), scale)


def _is_inside(face: Face, operation: OperationRow, whole: Extent) -> bool:
    """Whether it is in the face that is seen, and no part of its edge: what opens to an edge is in the outline."""
    if operation.face in face.edges.values():
        return False
    box = face.box(operation)
    return isinstance(operation.size, tuple) is False or operation.depth is not None or whole.contains(box)
