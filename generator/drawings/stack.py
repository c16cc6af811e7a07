"""What a bolt or screw holds, pulled apart along its axis: each piece with its name, the head of the bolt below."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import ASCENDER, SMALL_TEXT, font_size, line_height
from generator.drawings.lettering import wrapped

#: The pictures and their words (mm): how wide the pictures are, from there to the words, and between two pieces.
WIDE, BESIDE, BETWEEN = 9.0, 2.5, 0.8
#: Between the words of two pieces (mm).
APART = 0.2
#: Half of a bolt's shank, of its head, and of a hole (mm).
SHANK, HEAD, HOLE = 1.0, 2.3, 1.3


@dataclass(frozen=True)
class StackPiece:
    """One piece: what it is drawn as (a name in `PICTURES`), and its words."""

    picture: str
    words: str


@dataclass(frozen=True)
class Stack:
    """Pieces on one axis, from the fastener's head on; and how often the bench has this."""

    pieces: tuple[StackPiece, ...]
    title: str

    def height(self, width: float) -> float:
        """How high it is (mm) in a width."""
        title = len(wrapped(self.title, width, SMALL_TEXT)) * line_height(SMALL_TEXT)
        return title + sum(_height(piece, width) for piece in self.pieces)


def draw_stack(canvas: Canvas, stack: Stack, at: Point, width: float) -> float:
    """The stack in a width (mm) from an upper left corner; its lower edge."""
    x, y = at
    for line in wrapped(stack.title, width, SMALL_TEXT):
        canvas.text((x, y + ASCENDER * font_size(SMALL_TEXT)), line, SMALL_TEXT, style="note")
        y += line_height(SMALL_TEXT)
    middle = x + WIDE / 2
    canvas.line((middle, y), (middle, y + sum(_height(each, width) for each in stack.pieces)), "centre")
    for piece in reversed(stack.pieces):
        high, draw = PICTURES[piece.picture]
        room = _height(piece, width)
        draw(canvas, middle, y + (room - high) / 2)
        lines = _words(piece, width)
        foot = y + (room - len(lines) * line_height(SMALL_TEXT)) / 2 + ASCENDER * font_size(SMALL_TEXT)
        for number, line in enumerate(lines):
            canvas.text((x + WIDE + BESIDE, foot + number * line_height(SMALL_TEXT)), line, SMALL_TEXT)
        y += room
    return y


def _words(piece: StackPiece, width: float) -> Sequence[str]:
    return wrapped(piece.words, width - WIDE - BESIDE, SMALL_TEXT)


def _height(piece: StackPiece, width: float) -> float:
    high, _ = PICTURES[piece.picture]
    return max(high + BETWEEN, len(_words(piece, width)) * line_height(SMALL_TEXT) + APART)


def _bolt(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x - SHANK, y, 2 * SHANK, 3.6, "fill-dark")
    canvas.rect(x - HEAD, y + 3.6, 2 * HEAD, 2.0, "fill-dark")
    _thread(canvas, x, y + 0.5)


def _thread(canvas: Canvas, x: float, y: float) -> None:
    for turn in range(3):
        canvas.line((x - SHANK, y + turn), (x + SHANK, y + turn + 0.5), "thin")


def _screw(canvas: Canvas, x: float, y: float) -> None:
    half = [(0.0, 0.0), (SHANK, 1.6), (SHANK, 4.2), (HEAD, 5.4)]
    canvas.polygon(
        [(x + out, y + down) for out, down in half] + [(x - o, y + d) for o, d in half[:0:-1]], "fill-dark"
    )
    _thread(canvas, x, y + 1.5)


def _pad(canvas: Canvas, x: float, y: float) -> None:
    """A pad on a threaded stem."""
    canvas.rect(x - SHANK, y, 2 * SHANK, 4.0, "fill-dark")
    canvas.polygon(
        ((x - 2.0, y + 4.0), (x + 2.0, y + 4.0), (x + 4.0, y + 5.6), (x - 4.0, y + 5.6)), "fill-dark"
    )
    _thread(canvas, x, y + 0.5)


def _washer(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x - 3.0, y, 6.0, 1.0, "fill-dark")


def _plate(canvas: Canvas, x: float, y: float) -> None:
    """A plate with a hole that the bolt goes through."""
    canvas.rect(x - WIDE / 2, y, WIDE, 2.0, "fill-new")
    canvas.rect(x - HOLE, y, 2 * HOLE, 2.0, "hole")


def _tapped(canvas: Canvas, x: float, y: float) -> None:
    """A plate whose hole has a thread."""
    _plate(canvas, x, y)
    for side in (-HOLE, HOLE):
        for turn in range(4):
            canvas.line((x + side, y + 0.5 * turn), (x + 0.45 * side, y + 0.5 * turn + 0.25), "thin")


def _bracket(canvas: Canvas, x: float, y: float) -> None:
    """One leg of an angle with its hole, the other leg beside it."""
    left, right = x - WIDE / 2, x + WIDE / 2
    low, inner = y + 4.0, right - 1.2
    canvas.polygon(
        ((left, y), (right, y), (right, low), (inner, low), (inner, y + 1.2), (left, y + 1.2)), "fill-new"
    )
    canvas.rect(x - HOLE, y, 2 * HOLE, 1.2, "hole")


def _carried(canvas: Canvas, x: float, y: float) -> None:
    """The flange of what is screwed on from below."""
    canvas.rect(x - WIDE / 2, y, WIDE, 1.4, "fill-new")
    canvas.rect(x - HOLE, y, 2 * HOLE, 1.4, "hole")


def _slot(canvas: Canvas, x: float, y: float) -> None:
    """The part of a bar that has the slot: its opening is down."""
    low, lip, top = y + 4.8, y + 3.6, y + 1.3
    half = [(WIDE / 2, y), (WIDE / 2, low), (1.5, low), (1.5, lip), (3.0, lip), (3.0, top)]
    canvas.polygon(
        [(x + out, at) for out, at in half] + [(x - out, at) for out, at in reversed(half)], "fill-bar"
    )


def _nut(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x - 2.8, y, 5.6, 2.0, "fill-dark")
    for side in (-SHANK, SHANK):
        canvas.line((x + side, y), (x + side, y + 2.0), "thin")


def _wood(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x - WIDE / 2, y, WIDE, 3.2, "fill-wood")
    for line in (1.1, 2.1):
        canvas.line((x - WIDE / 2, y + line), (x + WIDE / 2, y + line), "thin")


def _rail(canvas: Canvas, x: float, y: float) -> None:
    """A rail seen from its end, and the one that goes into it."""
    half = [(3.6, 0.0), (3.6, 6.4), (1.6, 6.4), (1.6, 5.4), (2.6, 5.4), (2.6, 1.0), (1.6, 1.0), (1.6, 0.0)]
    canvas.polygon([(x - 4.0 + out, y + down) for out, down in half], "fill-bar")
    canvas.rect(x - 1.6, y + 1.5, 1.6, 3.4, "fill-new")
    canvas.rect(x, y, 1.4, 6.4, "fill-new")


PICTURES: Mapping[str, tuple[float, Callable[[Canvas, float, float], None]]] = {
    "bolt": (5.6, _bolt),
    "screw": (5.4, _screw),
    "pad": (5.6, _pad),
    "washer": (1.0, _washer),
    "plate": (2.0, _plate),
    "tapped": (2.0, _tapped),
    "bracket": (4.0, _bracket),
    "carried": (1.4, _carried),
    "rail": (6.4, _rail),
    "slot": (4.8, _slot),
    "nut": (2.0, _nut),
    "wood": (3.2, _wood),
}
"""Each picture's height (mm) and how it is drawn about a middle, below an upper edge."""
