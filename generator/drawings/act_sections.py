"""Small flat pictures of acts: the order of screws from above, a mark of paint, a bay that is measured, what hangs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import cos, hypot, pi, sin

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.bench.role import Role
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.scene import MATERIALS, UPRIGHT
from generator.drawings.step_arrows import DISC, bounds
from generator.drawings.step_motions import touch
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step

Shapes = Mapping[str, Shape]
#: A screw's head, its hexagon and the stripe across it (mm of paper).
HEAD, HEXAGON, STRIPE = 8.0, 4.6, 1.5
#: What of a wall, a rail or a post is shown beside what hangs (mm of the bench).
AROUND = 40.0
#: The heads of what is measured (mm of paper).
POINT, WIDE = 2.6, 0.9
#: A section is cut so far behind the front of what it is about (mm).
BEHIND = 60.0


def draw_paint(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas:
    """The head of a screw in its bar, with a stripe of paint from one to the other."""
    del figures, step, shapes
    canvas = Canvas()
    canvas.rect(-width * 0.45, -high * 0.36, width * 0.9, high * 0.72, "fill-bar")
    canvas.circle((0.0, 0.0), HEAD, "fill-dark")
    canvas.polygon(_polygon(HEXAGON, 6, 0.0), "hole")
    canvas.rect(HEXAGON + 0.6, -STRIPE / 2, HEAD, STRIPE, "arrow")
    canvas.text((HEAD + 0.5, SMALL_TEXT + STRIPE), "paint", SMALL_TEXT, style="mark")
    return canvas


def _polygon(radius: float, sides: int, turned: float) -> Sequence[Point]:
    return tuple(
        (radius * cos(turned + 2 * pi * n / sides), radius * sin(turned + 2 * pi * n / sides))
        for n in range(sides)
    )


def draw_order(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas | None:
    """The grid from above with its screws: those at the corners first, the others from the centre to the ends."""
    moved = [shapes[mark] for motion in step.motions for mark in motion.marks if mark in shapes]
    grid = [bounds(shape.whole) for shape in moved if shape.is_frame]
    if not grid:
        return None
    x0, y0, _, x1, y1, _ = bounds(grid)
    scale = min((width - 2 * DISC) / (x1 - x0), (high - 2 * DISC - SMALL_TEXT) / (y1 - y0))
    canvas = Canvas()

    def point(x: float, y: float) -> Point:
        return ((x - x0) * scale, (y1 - y) * scale)

    for box in grid:
        left, top = point(box[0], box[4])
        canvas.rect(left, top, (box[3] - box[0]) * scale, (box[4] - box[1]) * scale, "fill-new")
    corners, inner = _places(figures, step, shapes, grid)
    centre = ((x0 + x1) / 2, (y0 + y1) / 2)
    far = sorted({round(hypot(x - centre[0], y - centre[1])) for x, y in inner})
    first = 2 if corners else 1
    for x, y in corners:
        _number(canvas, point(min(max(x, x0), x1), min(max(y, y0), y1)), "1")
    for x, y in inner:
        rank = far.index(round(hypot(x - centre[0], y - centre[1])))
        _number(canvas, point(x, y), str(first + rank))
    room = canvas.extents()
    canvas.text(
        ((room.left + room.right) / 2, room.bottom + SMALL_TEXT + 1.0),
        "front",
        SMALL_TEXT,
        "middle",
        style="mark",
    )
    return canvas


def _places(
    figures: Figures, step: Step, shapes: Shapes, grid: Sequence[Sequence[float]]
) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Where screws hold a grid, from above: those in posts beside it, and those through it.

    Without screws that a key drives it is where posts meet it.
    """
    outer, inner = list[tuple[float, float]](), list[tuple[float, float]]()
    for key in step.keys:
        box = bounds(shapes[key.bar].whole)
        axis = max(range(3), key=lambda each: box[each + 3] - box[each])
        middle = [(box[i] + box[i + 3]) / 2 for i in range(3)]
        if axis < UPRIGHT:
            middle[axis] = box[axis] + float(key.at)
        (outer if axis == UPRIGHT else inner).append((middle[0], middle[1]))
    if outer or inner:
        return outer, inner
    groups = {mark: row.group for row in figures.parts for mark in row.marks}
    for shape in (shapes[mark] for mark in step.standing if mark in shapes):
        box = bounds(shape.whole)
        upright = box[5] - box[2] > max(box[3] - box[0], box[4] - box[1])
        if shape.is_frame and upright and any(touch(box, each) for each in grid):
            at = ((box[0] + box[3]) / 2, (box[1] + box[4]) / 2)
            (outer if groups.get(shape.mark) == Role.CORNER_POST.value else inner).append(at)
    return outer, inner


def _number(canvas: Canvas, at: Point, number: str) -> None:
    canvas.circle(at, DISC, "hole")
    canvas.text((at[0], at[1] + SMALL_TEXT / 2), number, SMALL_TEXT, "middle", style="mark")


def draw_measured(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas | None:
    """A bay from the front with what is fixed to its two sides, measured between at each height."""
    new = [shapes[m] for motion in step.motions for m in motion.marks if m in shapes]
    fixed = [bounds(shape.whole) for shape in new if shape.kind == FIXED_IN_BAY]
    if not fixed:
        return None
    low = min(fixed)
    plane = low[1] + BEHIND
    own = [box for box in fixed if box[1] <= plane <= box[4]]
    bay = next(
        (b for b in figures.layout.bays if float(b.left) - AROUND < low[0] < float(b.left + b.width)), None
    )
    if bay is None:
        return None
    left, right = float(bay.left), float(bay.left + bay.width)
    own = [box for box in own if left - AROUND < box[0] and box[3] < right + AROUND]
    window = (left - AROUND, float(bay.bottom), right + AROUND, float(bay.bottom + bay.height))
    there = [shapes[mark] for mark in step.standing if mark in shapes]
    canvas, scale = _section(there, new, plane, window, width, high)
    for z in dict.fromkeys(round((box[2] + box[5]) / 2) for box in own):
        row = [box for box in own if box[2] <= z <= box[5]]
        ends = min(box[3] for box in row), max(box[0] for box in row)
        if ends[1] > ends[0]:
            _tape(
                canvas, ((ends[0] - window[0]) * scale, (window[3] - z) * scale), (ends[1] - ends[0]) * scale
            )
    return canvas


def _tape(canvas: Canvas, at: Point, long: float) -> None:
    x, y = at
    canvas.line((x, y), (x + long, y), "outline")
    for tip, back in ((x, POINT), (x + long, -POINT)):
        canvas.polygon(((tip, y), (tip + back, y - WIDE), (tip + back, y + WIDE)), "arrow")


def draw_hung(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas | None:
    """The section through one of what hangs: its rim on the two strips that carry it."""
    del figures
    new = [shapes[m] for motion in step.motions for m in motion.marks if m in shapes]
    if not new:
        return None
    x0, y0, z0, x1, y1, z1 = bounds(new[0].whole)
    window = (x0 - AROUND, z0 - AROUND / 2, x1 + AROUND, z1 + AROUND / 2)
    there = [shapes[mark] for mark in step.standing if mark in shapes]
    return _section(there, new[:1], (y0 + y1) / 2, window, width, high)[0]


def _section(
    there: Sequence[Shape],
    new: Sequence[Shape],
    plane: float,
    window: tuple[float, float, float, float],
    width: float,
    high: float,
) -> tuple[Canvas, float]:
    """What a plane across y cuts within a window of x and z (low x, low z, high x, high z); its scale."""
    canvas = Canvas()
    scale = min(width / (window[2] - window[0]), high / (window[3] - window[1]))
    for shape in (*there, *new):
        style = "fill-new" if shape in new else f"fill-{MATERIALS.get(shape.kind, 'dark')}"
        for block in shape.seated or shape.whole:
            x0, x1 = max(block[0], window[0]), min(block[3], window[2])
            z0, z1 = max(block[2], window[1]), min(block[5], window[3])
            if x0 < x1 and z0 < z1 and block[1] <= plane <= block[4]:
                canvas.rect(
                    (x0 - window[0]) * scale,
                    (window[3] - z1) * scale,
                    (x1 - x0) * scale,
                    (z1 - z0) * scale,
                    style,
                )
    return canvas, scale
