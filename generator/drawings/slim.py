"""The slim picture of a step, for a phone: what the wide one has painted already is only shown again."""

from __future__ import annotations

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Point, around
from generator.drawings.isometric import VisibleFace
from generator.drawings.shapes import Again, Polyline, extents

#: Its picture, all of it with the labels, and where their words break (mm): no letter is then too small to read.
SLIM, SLIM_WIDTH, SLIM_LABEL = 66.0, 118.0, 18.5
#: What the groups of windows are called, before their numbers.
WINDOW = "window-"


def again(wide: Drawing, painted: Canvas, face: VisibleFace, scale: float) -> Canvas:
    """What a wide picture has painted first, once more in the scale of another canvas: a page holds it once."""
    first = wide.shapes[0]
    assert isinstance(first, Polyline)
    share = scale * around(face.corners).width / around(first.points).width
    at = (-share * wide.origin[0], -share * wide.origin[1])
    canvas = Canvas()
    canvas.add(Again(f"{wide.id}-base", at, share, painted.extents()))
    return canvas


def window_again(canvas: Canvas, wide: Drawing, number: int, corner: Point) -> None:
    """A round window of the wide picture, its upper left corner at `corner`."""
    for name, _, after in wide.groups:
        if name == f"{WINDOW}{number}":
            room = wide.shapes[after - 1].extent()
            again = Again(f"{wide.id}-{name}", (0.0, 0.0), 1.0, room)
            canvas.add(again.moved(corner[0] - room.left, corner[1] - room.top))


def place_again(canvas: Canvas, wide: Drawing, corner: Point) -> None:
    """The same as in the wide picture, its upper right corner at `corner`; nothing where that has none."""
    for name, first, after in wide.groups:
        if name == "place":
            room = extents(wide.shapes[first:after])
            canvas.add(
                Again(f"{wide.id}-place", (0.0, 0.0), 1.0, room).moved(
                    corner[0] - room.right, corner[1] - room.top
                )
            )
