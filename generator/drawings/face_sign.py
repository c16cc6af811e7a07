"""A small glass cube that stands for the bench: the face that a view shows is dark in it, and named beside it."""

from __future__ import annotations

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.geometry import FACES

SIDE, RUN, RISE = 4.2, 2.0, 1.2
"""An upright edge of the cube, and how far its receding edges run to the right and up (mm)."""
WIDTH, HEIGHT = SIDE + RUN, SIDE + RISE
"""What the cube takes (mm)."""

#: Directions on the paper of the axes, from the cube's lower front left corner.
WAYS = {"x": (SIDE, 0.0), "y": (RUN, -RISE), "z": (0.0, -SIDE)}
#: The three faces that are seen, from the front, a little from the right and from above.
SEEN = ("front", "right", "top")


def draw_cube(canvas: Canvas, at: Point, face: str) -> None:
    """The cube with its lower front left corner at `at`; a face that is away from the reader shows through."""
    if face in (name for pair in FACES.values() for name in pair):
        canvas.polygon(_corners(at, face), "arrow")
    for name in SEEN:
        canvas.polygon(_corners(at, name), "thin")


def name_face(canvas: Canvas, at: Point, face: str, words: str) -> None:
    """The cube, and to its right what the view shows; `at` is the upper left corner of both."""
    draw_cube(canvas, (at[0], at[1] + HEIGHT), face)
    canvas.text((at[0] + WIDTH + 2.0, at[1] + HEIGHT - 0.8), words, TEXT, style="mark")


def draw_up(canvas: Canvas, foot: Point, words: str, upward: bool = True) -> None:
    """An arrow up the paper, or to the right, with the way that it points in the bench."""
    x, y = foot
    ahead = (0.0, -1.0) if upward else (1.0, 0.0)
    tip = (x + 7.0 * ahead[0], y + 7.0 * ahead[1])
    canvas.line(foot, tip, "outline")
    side = (ahead[1], ahead[0])
    neck = (tip[0] - 2.4 * ahead[0], tip[1] - 2.4 * ahead[1])
    canvas.polygon(
        (
            tip,
            (neck[0] + side[0], neck[1] + side[1]),
            (neck[0] - side[0], neck[1] - side[1]),
        ),
        "arrow",
    )
    beside = (x + 2.0, y - 2.0) if upward else (tip[0] + 1.0, y + SMALL_TEXT / 2)
    canvas.text(beside, words, SMALL_TEXT, style="note")


def _corners(at: Point, face: str) -> list[Point]:
    axis = next(axis for axis, faces in FACES.items() if face in faces)
    first, second = (WAYS[each] for each in WAYS if each != axis)
    x, y = at
    if face == FACES[axis][1]:
        x, y = x + WAYS[axis][0], y + WAYS[axis][1]
    return [
        (x, y),
        (x + first[0], y + first[1]),
        (x + first[0] + second[0], y + first[1] + second[1]),
        (x + second[0], y + second[1]),
    ]
