"""The bench under the loads of its work: arrows with numbers, which a table beside the picture explains."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import TEXT
from generator.drawings.lettering import fitting
from generator.figures.model import Figures

LENGTH = 88.0
"""Length of the bench on the paper, in mm."""
BETWEEN = 30.0
"""Between the two views, in mm of paper."""
ARROW, HEAD, RING = 10.0, 2.8, 3.8
"""Length of an arrow, of its head, and radius of the ring with its number, in mm of paper."""

RIGHT, LEFT, DOWN, UP = 0.0, pi, pi / 2, -pi / 2


@dataclass(frozen=True)
class Arrow:
    """A load by its number: its point on the bench as parts of length and height of a view, and which way it goes.

    `view` is front or end; the point is counted from the left and from the floor.
    """

    number: int
    view: str
    at: Point
    way: float


def draw_loads(figures: Figures, arrows: Sequence[Arrow]) -> Drawing:
    """The bench from the front, and from its left end below it, with an arrow for each load."""
    return fitting(lambda size: _drawing(figures, arrows, size), LENGTH)


def _drawing(figures: Figures, arrows: Sequence[Arrow], size: float) -> Drawing:
    canvas, layout = Canvas(), figures.layout
    scale = size / float(layout.length)
    height, deep = float(layout.height) * scale, float(layout.depth) * scale
    views = {
        "front": Extent(0.0, -height, size, 0.0),
        "end": Extent((size - deep) / 2, BETWEEN, (size + deep) / 2, height + BETWEEN),
    }
    for name, view in views.items():
        _outline(canvas, figures, view, scale, name)
    for arrow in arrows:
        _arrow(canvas, arrow, views[arrow.view])
    return canvas.finish(
        "loads",
        "The loads of the work",
        "The bench from the front, and from its left end with its front on the left. "
        "The numbers are those of the table below.",
    )


def _outline(canvas: Canvas, figures: Figures, view: Extent, scale: float, name: str) -> None:
    """Top, posts and rails as one sees them, and what the bench stands on."""
    layout = figures.layout
    bar, foot = float(layout.section) * scale, float(layout.floor_to_frame) * scale
    board = view.height - foot - float(layout.frame_height) * scale
    frame = Extent(view.left, view.top + board, view.right, view.bottom - foot)
    canvas.rect(view.left, view.top, view.width, board, "fill-wood")
    for low in (frame.top, frame.bottom - bar):
        canvas.rect(frame.left, low, frame.width, bar, "fill-bar")
    lines = [float(line) * scale for line in layout.lines] if name == "front" else []
    for x in (0.0, *lines, frame.width - bar):
        canvas.rect(frame.left + x, frame.top, bar, frame.height, "fill-bar")
    axis = 0 if name == "front" else 1
    span = float(layout.length if name == "front" else layout.depth)
    points = figures.stands.points if figures.stands else ()
    for at in sorted({round(float(point[axis]) / span, 3) for point in points}):
        canvas.circle((view.left + at * view.width, view.bottom - foot / 2), foot / 2, "thin")
    canvas.line((view.left - RING, view.bottom), (view.right + RING, view.bottom), "outline")


def _arrow(canvas: Canvas, arrow: Arrow, view: Extent) -> None:
    """An arrow that ends at its point, and its number behind it."""
    x, y = view.left + arrow.at[0] * view.width, view.bottom - arrow.at[1] * view.height
    along, across = (cos(arrow.way), sin(arrow.way)), (-sin(arrow.way), cos(arrow.way))
    back = (x - ARROW * along[0], y - ARROW * along[1])
    neck = (x - HEAD * along[0], y - HEAD * along[1])
    half = HEAD / 2.4
    canvas.line(back, neck, "outline")
    canvas.polygon(
        [
            (x, y),
            (neck[0] + half * across[0], neck[1] + half * across[1]),
            (neck[0] - half * across[0], neck[1] - half * across[1]),
        ],
        "arrow",
    )
    ring = (back[0] - RING * along[0], back[1] - RING * along[1])
    canvas.circle(ring, RING, "outline")
    canvas.text((ring[0], ring[1] + TEXT / 2), str(arrow.number), TEXT, "middle")
