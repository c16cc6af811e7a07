"""Where a scene is seen from: how the frame's axes lie in the scene, upright, from below, or with the work lying flat.

A scene has its own axes a (to the lower left), b (to the lower right) and c (up); see `isometric`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.drawings.extent import Point
from generator.drawings.isometric import project

#: A signed axis of the frame: its index and +1 or -1.
Axis = tuple[int, int]


@dataclass(frozen=True)
class Eye:
    """`axes` are the signed axes of the frame that become a, b and c; seen from `below`, nearer is higher on paper."""

    name: str
    axes: tuple[Axis, Axis, Axis]
    below: bool = False

    def block(self, block: Sequence[float]) -> tuple[float, ...]:
        """A block of the frame (low, then high corner, mm) in the scene's axes."""
        low, high = [], []
        for axis, sign in self.axes:
            ends = sorted((sign * block[axis], sign * block[axis + 3]))
            low.append(ends[0])
            high.append(ends[1])
        return (*low, *high)

    def paper(self, point: Sequence[float]) -> Point:
        """A point of the scene on paper."""
        return self.turned(project(point))

    def turned(self, point: Point) -> Point:
        """A projected point, the right way up."""
        return (point[0], -point[1]) if self.below else point

    def point(self, point: Sequence[float]) -> Point:
        """A point of the frame, or a direction in it, on paper."""
        return self.paper([sign * point[axis] for axis, sign in self.axes])

    def sees(self, way: Sequence[float]) -> bool:
        """Whether the end of what goes that way, or a face that it meets, is turned to the eye; so is no way at all."""
        return sum(sign * way[axis] for axis, sign in self.axes) <= 0

    @property
    def up(self) -> Axis:
        """What points up where the work is done."""
        axis, sign = self.axes[2]
        return (axis, -sign) if self.below else (axis, sign)


#: The finished bench from its corners. Each corner is the one before it turned by a quarter.
CORNERS = {
    name: Eye(name, (*axes, (2, 1)))
    for name, axes in {
        "front right": ((1, -1), (0, 1)),
        "front left": ((0, -1), (1, -1)),
        "rear left": ((1, 1), (0, -1)),
        "rear right": ((0, 1), (1, 1)),
    }.items()
}
#: The same from below: the bench stands, the eye is under it.
BELOW = {name: Eye(name, (*view.axes[:2], (2, -1)), below=True) for name, view in CORNERS.items()}


def lying(up: str) -> Iterator[Eye]:
    """Views of an end frame that lies flat: `up` (`+x` or `-x`) points up; its top is away to the right first."""
    sign = 1 if up[0] == "+" else -1
    c = ("xyz".index(up[1]), sign)
    first, second = (2, -1), (1, sign)
    for _ in range(4):
        yield Eye("above", (first, second, c))
        first, second = second, (first[0], -first[1])
