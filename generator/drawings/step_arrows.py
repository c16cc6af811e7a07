"""Arrows of a step picture: fat, with a rim of paper, along the way that was proved; and how far a piece goes in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, around, shifted
from generator.drawings.letter_sizes import SMALL_TEXT

Block = Sequence[float]

#: An arrow on paper (mm): shortest and longest, half of its shaft, half of its head, the head's length, its rim.
SHORTEST, LONGEST, SHAFT, HEAD, HEAD_LENGTH, RIM = 9.0, 22.0, 1.3, 2.8, 4.4, 0.5
#: Clear of the piece that it belongs to (mm), and how much of the way it shows.
CLEAR, OF_THE_WAY = 1.0, 0.85
#: How high an arrow of what is tilted in rises, as part of its length, where it has turned into its way, and of how
#: many pieces it is. It is at least so long (mm): a shorter one would show no way.
BOW, TURNED, PARTS, LEAST_CURVED = 0.5, 0.55, 10, 14.0
#: The disc that bears a number (mm).
DISC = 2.2


def bounds(blocks: Sequence[Block]) -> tuple[float, ...]:
    """Low and high corner of what lies about some blocks."""
    return (
        *(min(block[axis] for block in blocks) for axis in range(3)),
        *(max(block[axis + 3] for block in blocks) for axis in range(3)),
    )


def end_centre(box: Block, axis: int, *, high: bool) -> tuple[float, ...]:
    """The centre of a box's face at one end of an axis."""
    point = [(box[each] + box[each + 3]) / 2 for each in range(3)]
    point[axis] = box[axis + 3] if high else box[axis]
    return tuple(point)


def reach(way: Point) -> tuple[Point, float]:
    """Which way an arrow points on paper for the way of a piece there, and how long it is."""
    length = hypot(*way)
    return (way[0] / length, way[1] / length), min(max(length * OF_THE_WAY, SHORTEST), LONGEST)


def arrow(canvas: Canvas, start: Point, ahead: Point, length: float, number: str = "") -> Extent:
    """A fat arrow from `start`, `length` mm along the unit vector `ahead`; the room that it takes."""
    for rim, style in ((RIM, "paper"), (0.0, "arrow")):
        outline = tuple(
            shifted(start, ahead[0] * along - ahead[1] * out, ahead[1] * along + ahead[0] * out)
            for along, out in _outline(length, rim)
        )
        canvas.polygon(outline, style)
    room = around(outline)
    if number:
        canvas.circle(start, DISC, "hole")
        canvas.text(shifted(start, 0.0, SMALL_TEXT / 2), number, SMALL_TEXT, "middle", style="mark")
    return room


def curved(canvas: Canvas, start: Point, ahead: Point, length: float, number: str = "") -> Extent:
    """An arrow that rises from `start` and turns into the way `ahead`: of what is tilted on its way in."""
    length = max(length, LEAST_CURVED)
    up, turned = BOW * length, TURNED * length
    line = []
    for share in (n / PARTS for n in range(PARTS + 1)):
        # a curve of the third degree: straight up at first, straight ahead at last
        first, last = 3 * share * share * (1 - share), share**3
        along = first * (length - turned) + last * (length - HEAD_LENGTH)
        high = 3 * share * (1 - share) ** 2 * up * 0.8 + first * up + last * up
        line.append(shifted(start, ahead[0] * along, ahead[1] * along - high))
    (x0, y0), tip = line[-2], line[-1]
    long = hypot(tip[0] - x0, tip[1] - y0)
    end = ((tip[0] - x0) / long, (tip[1] - y0) / long)
    rooms = []
    for rim, style in ((RIM, "paper"), (0.0, "arrow")):
        sides: list[list[Point]] = [[], []]
        for (ax, ay), (bx, by) in pairwise(line):
            far = hypot(bx - ax, by - ay)
            out = (-(by - ay) / far * (SHAFT + rim), (bx - ax) / far * (SHAFT + rim))
            sides[0] += [shifted((ax, ay), *out), shifted((bx, by), *out)]
            sides[1] += [shifted((ax, ay), -out[0], -out[1]), shifted((bx, by), -out[0], -out[1])]
        half, reach_ = HEAD + 1.6 * rim, HEAD_LENGTH + 2 * rim
        head = [
            shifted(tip, -end[1] * half, end[0] * half),
            shifted(tip, end[0] * reach_, end[1] * reach_),
            shifted(tip, end[1] * half, -end[0] * half),
        ]
        outline = [*sides[0], *head, *reversed(sides[1])]
        canvas.polygon(outline, style)
        rooms.append(around(outline))
    if number:
        canvas.circle(start, DISC, "hole")
        canvas.text(shifted(start, 0.0, SMALL_TEXT / 2), number, SMALL_TEXT, "middle", style="mark")
    return rooms[0]


def _outline(length: float, rim: float) -> Iterator[Point]:
    """Along and out of its axis, round an arrow with a rim."""
    neck = length - HEAD_LENGTH
    half = (
        (-rim, SHAFT + rim),
        (neck - rim, SHAFT + rim),
        (neck - rim, HEAD + 1.6 * rim),
        (length + 2 * rim, 0.0),
    )
    yield from half
    yield from ((along, -out) for along, out in reversed(half[:-1]))


def travel(way: str, own: Sequence[Block], others: Sequence[Block]) -> float:
    """How far a piece is beside or within others on its way in (mm): until the boxes about them are clear."""
    axis, sign = "xyz".index(way[1]), 1 if way[0] == "+" else -1
    across = [each for each in range(3) if each != axis]
    far = 0.0
    for box in own:
        for other in others:
            if all(box[i] < other[i + 3] - 0.01 and other[i] < box[i + 3] - 0.01 for i in across):
                far = max(far, other[axis + 3] - box[axis] if sign < 0 else box[axis + 3] - other[axis])
    return far
