"""Whether a dimension in a step picture meets what else is drawn there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from generator.drawings.callouts import cross
from generator.drawings.dimensions import ORIGIN
from generator.drawings.extent import Extent, Point, around, union
from generator.drawings.iso_dimensions import LaidOut, meets
from generator.drawings.painted import Painted
from generator.drawings.shapes import Circle, Line, Polyline, Shape, Text

#: Circles are larger than a leader's dot (mm).
LARGER = 0.8
#: Where on a dimension line bodies are looked for.
POINTS = 12
#: What a line keeps off the circle of a datum (mm).
RIM = 0.3
#: Lines that a dimension does not cross; the style of leaders, which may; and the sides of a small arrowhead.
CROSSED, LEADER, SIDES = ("thin", "outline", "break-down"), "thin", 3


def on_bodies(laid: LaidOut, painted: Painted, scale: float) -> bool:
    """Whether a figure or the dimension line would be on something that shows."""
    (x0, y0), (x1, y1) = laid.line
    spots = [(x0 + (x1 - x0) * n / POINTS, y0 + (y1 - y0) * n / POINTS) for n in range(POINTS + 1)]
    spots += [spot for room in laid.rooms for spot in _spots(room)]
    names = {face.solid.name for face in painted.faces}
    return not all(painted.covers([(x / scale, y / scale) for x, y in spots], names))


def clashes(laid: LaidOut, others: Sequence[Shape]) -> bool:
    """Whether a figure or a line of a dimension meets lettering, a leader, a ring, an arrow or a window.

    A leader, which has a rim of paper, may cross a line of it; never its figures or its ends.
    """
    rooms, lines = laid.rooms, [*laid.lines, *laid.ends]
    points = [point for line in lines for point in line] + ([laid.datum] if laid.datum else [])
    # what is off all of it is off each part of it
    whole = union((*rooms, around(points))).grown(ORIGIN + RIM)
    near = (shape for shape in others if whole.overlaps(shape.extent().grown(RIM)))
    return any(_clashes(laid, shape, rooms, lines) for shape in near)


def _clashes(
    laid: LaidOut, shape: Shape, rooms: Sequence[Extent], lines: Sequence[tuple[Point, Point]]
) -> bool:
    if isinstance(shape, Text):
        box = shape.extent()
        return any(room.overlaps(box) for room in rooms) or any(meets(*line, box) for line in lines)
    if isinstance(shape, Line) and shape.style in CROSSED:
        crossed = laid.ends if shape.style == LEADER else lines
        own = (shape.start, shape.end)
        if laid.datum and _from_line(laid.datum, own) < ORIGIN + RIM:
            return True
        return any(meets(*own, room) for room in rooms) or any(cross(own, line) for line in crossed)
    if isinstance(shape, Circle) and shape.radius > LARGER:
        return any(_off(shape.centre, room) < shape.radius for room in rooms) or any(
            _from_line(shape.centre, line) < shape.radius for line in lines
        )
    if isinstance(shape, Polyline) and shape.style == "arrow" and len(shape.points) > SIDES:
        edges = list(pairwise((*shape.points, shape.points[0])))
        return any(meets(*edge, room) for edge in edges for room in rooms) or any(
            cross(edge, line) for edge in edges for line in lines
        )
    return False


def meet(one: LaidOut, other: LaidOut) -> bool:
    """Whether two dimensions meet."""
    lines = [*other.lines, *other.strokes]
    return (
        any(a.overlaps(b) for a in one.rooms for b in other.rooms)
        or any(meets(*line, room) for line in lines for room in one.rooms)
        or any(meets(*line, room) for line in one.lines for room in other.rooms)
        or any(cross(a, b) for a in one.lines for b in lines)
    )


def _spots(room: Extent) -> Iterator[Point]:
    """Points all over a rectangle, no two farther apart than its height."""
    columns = max(2, round(room.width / room.height) + 1)
    for y in (room.top, room.centre[1], room.bottom):
        yield from ((room.left + room.width * n / (columns - 1), y) for n in range(columns))


def _off(point: Point, room: Extent) -> float:
    """How far a point is from a rectangle."""
    dx = max(room.left - point[0], 0.0, point[0] - room.right)
    dy = max(room.top - point[1], 0.0, point[1] - room.bottom)
    return hypot(dx, dy)


def _from_line(point: Point, line: tuple[Point, Point]) -> float:
    """How far a point is from a line between two points."""
    (x0, y0), (x1, y1) = line
    long = (x1 - x0) ** 2 + (y1 - y0) ** 2
    share = 0.0 if not long else ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / long
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - x0 - share * (x1 - x0), point[1] - y0 - share * (y1 - y0))
