"""What tells a reader of a step picture which way is front, and where in the bench the work is."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import partial
from math import hypot

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, shifted
from generator.drawings.eye import CORNERS, Eye
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.drawings.scene import paint, piece_solid, seen
from generator.figures.rows.assembly import Shape

#: What each signed axis of the frame is called; the words that come first are the ones that a reader looks for.
WORDS = {(1, -1): "front", (2, 1): "top", (0, 1): "right", (0, -1): "left", (1, 1): "rear", (2, -1): "foot"}
#: An arrow of the signpost and its head (mm).
SHAFT, HEAD, HALF = 7.0, 2.4, 1.0
#: The small picture of the bench, and its frame (mm). A face smaller than a 150th of it is not missed.
WIDTH, HEIGHT, INSET, CELLS = 30.0, 21.0, 2.0, 150


def draw_signpost(canvas: Canvas, at: Point, view: Eye) -> Extent:
    """Two arrows that lie as the bench does, with what is there; the room that they take, from its middle."""
    signs = Canvas()
    for axis, sign in view.axes[:2]:
        along = min((1, -1), key=lambda end: list(WORDS).index((axis, sign * end)))
        direction = [0.0, 0.0, 0.0]
        direction[axis] = float(sign * along)
        x, y = view.point(direction)
        ahead = (x / hypot(x, y), y / hypot(x, y))
        tip = (ahead[0] * SHAFT, ahead[1] * SHAFT)
        signs.line((0.0, 0.0), tip, "outline")
        neck = shifted(tip, -ahead[0] * 0.5, -ahead[1] * 0.5)
        signs.polygon(
            (
                shifted(neck, ahead[0] * HEAD, ahead[1] * HEAD),
                shifted(neck, -ahead[1] * HALF, ahead[0] * HALF),
                shifted(neck, ahead[1] * HALF, -ahead[0] * HALF),
            ),
            "arrow",
        )
        end = shifted(
            tip, ahead[0] * (HEAD + 1.0), ahead[1] * (HEAD + 1.0) + (SMALL_TEXT if ahead[1] > 0 else 0.0)
        )
        signs.text(
            end, WORDS[(axis, sign * along)], SMALL_TEXT, "start" if ahead[0] > 0 else "end", style="mark"
        )
    room = signs.extents()
    canvas.place(signs, at[0] - room.left, at[1] - room.top)
    return Extent(at[0], at[1], at[0] + room.width, at[1] + room.height)


def draw_place(
    canvas: Canvas, at: Point, shapes: Iterable[Shape], own: Collection[str], corner: str
) -> Extent:
    """The bars of the bench with what a step adds in its place, in a frame with its upper left corner at `at`."""
    room = Extent(at[0] + INSET, at[1] + INSET, at[0] + WIDTH - INSET, at[1] + HEIGHT - INSET)
    canvas.later(room, partial(_draw_bench, room=room, shapes=shapes, own=own, view=CORNERS[corner]))
    canvas.rect(at[0], at[1], WIDTH, HEIGHT, "thin", 1.0)
    words = (at[0] + WIDTH / 2, at[1] + HEIGHT + TEXT)
    canvas.text(words, "where you are", SMALL_TEXT, "middle", style="note")
    return Extent(at[0], at[1], at[0] + WIDTH, words[1] + 1.0)


def _draw_bench(
    canvas: Canvas, room: Extent, shapes: Iterable[Shape], own: Collection[str], view: Eye
) -> None:
    """The bars of the bench and its `own` pieces in the middle of a room."""
    small = Canvas()
    solids = [
        piece_solid(shape, block, view, new=shape.mark in own)
        for shape in shapes
        if shape.is_frame or shape.mark in own
        for block in (shape.seated or shape.whole)
    ]
    paint(small, seen(solids, view, CELLS), view, room.width, room.height, fine=False)
    (x, y), drawn = room.centre, small.extents()
    canvas.place(small, x - drawn.centre[0], y - drawn.centre[1])
