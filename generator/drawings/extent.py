"""Points and upright rectangles on the paper, in mm, x to the right and y down."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor, hypot
from typing import NamedTuple

Point = tuple[float, float]

#: What is less (mm) is no way along an axis.
MOVES = 1e-6


class Extent(NamedTuple):
    """An upright rectangle on the paper, in mm."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Breadth in mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height in mm."""
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        """Its middle."""
        return ((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    def overlaps(self, other: Extent) -> bool:
        """True when the two have a common area; a hundredth of a millimetre does not count."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > 0.01
            and min(self.bottom, other.bottom) - max(self.top, other.top) > 0.01
        )

    def contains(self, other: Extent) -> bool:
        """True when all of `other` is within this rectangle."""
        left, top = other.left - self.left, other.top - self.top
        return min(left, top, self.right - other.right, self.bottom - other.bottom) > -1e-9

    def grown(self, by: float) -> Extent:
        """The rectangle `by` mm wider on every side."""
        return Extent(self.left - by, self.top - by, self.right + by, self.bottom + by)


def around(points: Iterable[Point]) -> Extent:
    """The extent of some points."""
    xs, ys = zip(*points, strict=True)
    return Extent(min(xs), min(ys), max(xs), max(ys))


def union(extents: Iterable[Extent]) -> Extent:
    """The extent of some rectangles together."""
    left, top, right, bottom = zip(*extents, strict=True)
    return Extent(min(left), min(top), max(right), max(bottom))


def shifted(point: Point, dx: float, dy: float) -> Point:
    """A point moved by `dx`, `dy` mm."""
    return (point[0] + dx, point[1] + dy)


def meets(start: Point, end: Point, room: Extent) -> bool:
    """Whether a line comes into a rectangle: looked at every half millimetre."""
    if (
        max(start[0], end[0]) < room.left
        or min(start[0], end[0]) > room.right
        or max(start[1], end[1]) < room.top
        or min(start[1], end[1]) > room.bottom
    ):
        return False
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    steps = max(1, round(2 * hypot(dx, dy)))
    first, last = 0, steps
    for at, way, low, high in ((x, dx, room.left, room.right), (y, dy, room.top, room.bottom)):
        if abs(way) > MOVES:
            # where it is beside the rectangle it need not be looked at; one place more at each end is for rounding
            within = sorted((side - at) / way * steps for side in (low, high))
            first, last = max(first, floor(within[0]) - 1), min(last, ceil(within[1]) + 1)
    return any(
        room.left <= x + share * dx <= room.right and room.top <= y + share * dy <= room.bottom
        for share in (n / steps for n in range(first, last + 1))
    )
