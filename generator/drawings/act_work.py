"""Small flat pictures of what is done to parts in the shop: a sloping pocket, an edge that is sealed, a thread."""

from __future__ import annotations

from collections.abc import Mapping
from math import cos, radians, sin, tan

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.step_placed import SLOPE
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step

Shapes = Mapping[str, Shape]
#: The section of a wall that lies flat: its length and thickness, half the pocket, where that ends before the edge.
WALL, THICK, BORE, BEFORE_EDGE = 30.0, 7.0, 1.1, 5.0
#: How far the drill stands out of the pocket, and the arc of its angle is from where they meet (mm of paper).
OUT, ARC = 27.0, 22.0
#: A board whose edge is sealed; its tongue; the bristles, the ferrule and the handle of the brush.
BOARD, HIGH, TONGUE, THIN = 15.0, 9.0, 4.0, 4.4
BRISTLES, FERRULE, HANDLE = 5.0, 2.5, 12.0
#: The end of a bar; a tap in it, so far in and out, with the bar that turns it.
BAR, WIDE, IN, SHAFT, TURNER = 19.0, 11.0, 7.0, 13.0, 9.0


def draw_pockets(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas:
    """The section of a wall that lies flat, with the drill in its upper face; its top edge is on the right."""
    del figures, step, shapes, width, high
    canvas, slope = Canvas(), radians(SLOPE)
    canvas.rect(0.0, 0.0, WALL, THICK, "fill-new")

    def along(far: float, off: float = 0.0) -> Point:
        """A place so far from the middle of the top edge on the drill's axis, and off that."""
        return (WALL - far * cos(slope) - off * sin(slope), THICK / 2 - far * sin(slope) + off * cos(slope))

    # the screw comes out in the middle of the edge; the drill's path is a flat stroke from the face
    canvas.polygon(
        (along(BEFORE_EDGE, -BORE), along(OUT, -BORE), along(OUT, BORE), along(BEFORE_EDGE, BORE)), "hole"
    )
    canvas.line(along(0.0), along(OUT + 2.0), "centre")
    for far in range(4):
        near = BEFORE_EDGE + 1.0 + 4.0 * far
        canvas.line(along(near, -BORE), along(near + 2.0, BORE), "thin")
    meets = WALL - THICK / 2 / tan(slope)
    arc = [(meets - ARC / 2 * cos(a), -ARC / 2 * sin(a)) for a in (slope * n / 6 for n in range(7))]
    canvas.polyline(arc, "thin")
    canvas.line((meets, 0.0), (meets - ARC / 2 - 1.0, 0.0), "thin")
    canvas.text((meets - ARC / 2 - 4.0, -0.6), f"{SLOPE:.0f}°", SMALL_TEXT, "end", style="mark")
    canvas.text((WALL, THICK + SMALL_TEXT + 1.0), "top edge", SMALL_TEXT, "end")
    return canvas


def draw_brush(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas:
    """A brush on the edge of a board, with its tongue where the boards of the step have one."""
    del shapes, width, high
    canvas = Canvas()
    tongued = any(
        row.tongues and row.rabbet_depth for row in figures.parts if set(row.marks) & set(step.parts)
    )
    canvas.rect(0.0, 0.0, BOARD, HIGH, "fill-new")
    edge = BOARD
    if tongued:
        canvas.rect(BOARD, (HIGH - THIN) / 2, TONGUE, THIN, "fill-new")
        edge += TONGUE
    y, half = HIGH / 2, HIGH / 2 - 0.8
    canvas.polygon(
        (
            (edge, y - half * 0.8),
            (edge + BRISTLES, y - half),
            (edge + BRISTLES, y + half),
            (edge, y + half * 0.8),
        ),
        "paper",
    )
    for n in range(-3, 4):
        canvas.line((edge, y + n * half * 0.8 / 3), (edge + BRISTLES, y + n * half / 3), "thin")
    canvas.rect(edge + BRISTLES, y - half, FERRULE, 2 * half, "hole")
    canvas.rect(edge + BRISTLES + FERRULE, y - 1.0, HANDLE, 2.0, "hole")
    canvas.text((BOARD / 2, HIGH + SMALL_TEXT + 1.0), "edge", SMALL_TEXT, style="mark")
    return canvas


def draw_tap(figures: Figures, step: Step, shapes: Shapes, width: float, high: float) -> Canvas:
    """The end of a bar with a tap in its core, and the bar that turns the tap."""
    del shapes, width, high
    canvas, y = Canvas(), WIDE / 2
    threads = (
        each.thread
        for row in figures.parts
        for each in row.operations
        if each.thread and set(row.marks) & set(step.parts)
    )
    canvas.rect(0.0, 0.0, BAR, WIDE, "fill-new")
    for side in (-1.0, 1.0):
        canvas.line((0.0, y + side * 1.6), (IN + 3.0, y + side * 1.6), "hidden")
    canvas.rect(-SHAFT, y - 0.9, SHAFT + IN, 1.8, "hole")
    for turn in range(int(IN)):
        canvas.line((turn - 0.3, y - 0.9), (turn + 0.3, y + 0.9), "thin")
    canvas.rect(-SHAFT, y - TURNER, 1.8, 2 * TURNER, "hole")
    canvas.text((BAR / 2, WIDE + SMALL_TEXT + 1.0), next(threads, ""), SMALL_TEXT, "middle", style="mark")
    return canvas
