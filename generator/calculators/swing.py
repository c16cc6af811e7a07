"""What a door meets as it turns about its pin, seen from above. Floats, millimetres and degrees.

Two convex outlines first meet where a corner of one is on an edge of the other. Each corner moves on a circle about
the pin, so that the angle follows from where this circle crosses the other outline's edges.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin, sqrt

Point = tuple[float, float]
Outline = tuple[Point, ...]

#: Outlines that reach less into each other than this (mm) touch.
TOUCH = 0.02
#: An angle this small (radians) is rounding.
NO_ANGLE = 1e-9
FULL = radians(360)


@dataclass(frozen=True)
class Turning:
    """A closed door from above: its outline, its pin, the way that it turns (1: counter-clockwise), how far (°)."""

    outline: Outline
    pin: Point
    way: int
    angle: float

    def at(self, angle: float) -> Outline:
        """Its outline when it has turned by so much (°)."""
        turn = radians(angle) * self.way
        return tuple(_turned(point, self.pin, turn) for point in self.outline)


def rectangle(x: tuple[float, float], y: tuple[float, float], less: float = 0.0) -> Outline:
    """A rectangle counter-clockwise, smaller all round by `less`."""
    (a, b), (c, d) = (x[0] + less, x[1] - less), (y[0] + less, y[1] - less)
    return ((a, c), (b, c), (b, d), (a, d))


def first_contact(door: Turning, other: Outline) -> float | None:
    """The angle (°) at which the turning door first meets a convex outline; None when it turns past it."""
    if door.way < 0:
        mirrored = Turning(_mirrored(door.outline), _mirrored((door.pin,))[0], 1, door.angle)
        return first_contact(mirrored, _mirrored(other))
    if _overlap(door.outline, other):
        return 0.0
    angles = [
        *_crossings(door.outline, other, door.pin, 1, door.angle),
        # seen from the door, everything else turns the other way
        *_crossings(other, door.outline, door.pin, -1, door.angle),
    ]
    return min(angles, default=None)


def doors_meet(one: Turning, other: Turning, step: float = 1.0) -> bool:
    """Whether two doors meet when both are open, the second at any whole step (°)."""
    stops = int(other.angle / step)
    return any(
        first_contact(one, _smaller(other.at(number * step))) is not None for number in range(1, stops + 1)
    )


def _smaller(outline: Outline) -> Outline:
    """Drawn in towards its middle by what counts as touching."""
    x, y = (sum(each) / len(outline) for each in zip(*outline, strict=True))
    return tuple(_towards(point, (x, y)) for point in outline)


def _towards(point: Point, middle: Point) -> Point:
    dx, dy = middle[0] - point[0], middle[1] - point[1]
    share = 2 * TOUCH / (hypot(dx, dy) or 1.0)
    return (point[0] + dx * share, point[1] + dy * share)


def _crossings(corners: Outline, edges: Outline, pin: Point, way: int, most: float) -> Iterator[float]:
    """Angles (°) at which corners that turn about the pin come onto the edges."""
    for corner in corners:
        radius = hypot(corner[0] - pin[0], corner[1] - pin[1])
        start = atan2(corner[1] - pin[1], corner[0] - pin[0])
        for one, two in pairwise((*edges, edges[0])):
            for x, y in _on_circle(one, two, pin, radius):
                turn = way * (atan2(y - pin[1], x - pin[0]) - start) % FULL
                if turn > FULL - NO_ANGLE:
                    turn = 0.0
                if turn <= radians(most):
                    yield degrees(turn)


def _on_circle(one: Point, two: Point, centre: Point, radius: float) -> Iterator[Point]:
    """Points of a stretch on a circle."""
    dx, dy = two[0] - one[0], two[1] - one[1]
    fx, fy = one[0] - centre[0], one[1] - centre[1]
    a, b, c = dx * dx + dy * dy, 2 * (fx * dx + fy * dy), fx * fx + fy * fy - radius * radius
    square = b * b - 4 * a * c
    if a == 0 or square < 0:
        return
    for sign in (-1, 1):
        share = (-b + sign * sqrt(square)) / (2 * a)
        if 0 <= share <= 1:
            yield (one[0] + share * dx, one[1] + share * dy)


def _overlap(one: Outline, other: Outline) -> bool:
    """Whether two convex outlines have more than an edge in common: no line along an edge of either parts them."""
    return not any(
        _parts(start, end, first, second)
        for first, second in ((one, other), (other, one))
        for start, end in pairwise((*first, first[0]))
    )


def _parts(start: Point, end: Point, own: Outline, other: Outline) -> bool:
    """Whether the line along an edge has its own outline on one side and the other one beyond."""
    across = (start[1] - end[1], end[0] - start[0])
    mine, theirs = ([across[0] * x + across[1] * y for x, y in each] for each in (own, other))
    return max(mine) <= min(theirs) or max(theirs) <= min(mine)


def _mirrored(outline: Sequence[Point]) -> Outline:
    return tuple((x, -y) for x, y in outline)


def _turned(point: Point, pin: Point, turn: float) -> Point:
    x, y = point[0] - pin[0], point[1] - pin[1]
    return (pin[0] + x * cos(turn) - y * sin(turn), pin[1] + x * sin(turn) + y * cos(turn))
