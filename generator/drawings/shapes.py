"""What a drawing is made of: lines, outlines, circles and lettering in mm of paper, that know their extents."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, radians, sin

from generator.drawings.extent import Extent, Point, around, shifted, union
from generator.drawings.letter_sizes import ASCENDER, BOLD, DESCENDER, TEXT, font_size, text_width
from generator.drawings.styles import BOLD_STYLES
from generator.readings import other_reading


@dataclass(frozen=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    style: str

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        (x, y), (to_x, to_y) = self.start, self.end
        return Extent(min(x, to_x), min(y, to_y), max(x, to_x), max(y, to_y))

    def moved(self, dx: float, dy: float) -> Line:
        """The shape moved by `dx`, `dy` mm."""
        return Line(shifted(self.start, dx, dy), shifted(self.end, dx, dy), self.style)


@dataclass(frozen=True)
class Polyline:
    """A run of straight lines; `closed` makes it a polygon."""

    points: tuple[Point, ...]
    style: str
    closed: bool = False
    link: str = ""

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        return around(self.points)

    def moved(self, dx: float, dy: float) -> Polyline:
        """The shape moved by `dx`, `dy` mm."""
        points = tuple((x + dx, y + dy) for x, y in self.points)
        return Polyline(points, self.style, self.closed, self.link)


@dataclass(frozen=True)
class Rect:
    """A rectangle from its upper left corner; `radius` rounds its corners."""

    corner: Point
    width: float
    height: float
    style: str
    radius: float = 0.0
    link: str = ""

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        x, y = self.corner
        return Extent(x, y, x + self.width, y + self.height)

    def moved(self, dx: float, dy: float) -> Rect:
        """The shape moved by `dx`, `dy` mm."""
        corner = shifted(self.corner, dx, dy)
        return Rect(corner, self.width, self.height, self.style, self.radius, self.link)


@dataclass(frozen=True)
class Circle:
    """A whole circle."""

    centre: Point
    radius: float
    style: str

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        (x, y), radius = self.centre, self.radius
        return Extent(x - radius, y - radius, x + radius, y + radius)

    def moved(self, dx: float, dy: float) -> Circle:
        """The shape moved by `dx`, `dy` mm."""
        return Circle(shifted(self.centre, dx, dy), self.radius, self.style)


@dataclass(frozen=True)
class Arc:
    """Part of a circle, clockwise on the paper from `start` to `end` degrees; 0 points to the right."""

    centre: Point
    radius: float
    start: float
    end: float
    style: str

    def at(self, degrees: float) -> Point:
        """The point of the circle in a direction."""
        return shifted(self.centre, self.radius * cos(radians(degrees)), self.radius * sin(radians(degrees)))

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        quarters = [a for a in range(-720, 721, 90) if self.start < a < self.end]
        return around(self.at(a) for a in (self.start, *quarters, self.end))

    def moved(self, dx: float, dy: float) -> Arc:
        """The shape moved by `dx`, `dy` mm."""
        return replace(self, centre=shifted(self.centre, dx, dy))


@dataclass(frozen=True)
class Again:
    """A group of another drawing of the page once more, `scale` times as large, moved so that its 0, 0 is `at` (mm).

    `room` is what it takes.
    """

    source: str
    at: Point
    scale: float
    room: Extent
    style: str = ""

    def extent(self) -> Extent:
        """The room that it takes."""
        return self.room

    def moved(self, dx: float, dy: float) -> Again:
        """The same elsewhere."""
        return replace(
            self,
            at=shifted(self.at, dx, dy),
            room=Extent(
                *shifted((self.room.left, self.room.top), dx, dy),
                *shifted((self.room.right, self.room.bottom), dx, dy),
            ),
        )


#: What takes a text that may read in two units to one of them.
Reading = Callable[[str], str]


@dataclass(frozen=True)
class Text:
    """One line of lettering. `anchor` is start, middle or end; `upward` text is read from the right.

    `shift` is how far (x, y) it moves where a page shows the other unit; its extent has both places.
    """

    at: Point
    text: str
    height: float = TEXT
    anchor: str = "start"
    upward: bool = False
    style: str = "text"
    link: str = ""
    shift: Point = (0.0, 0.0)

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        if self.shift == (0.0, 0.0):
            return self._room
        here, (dx, dy) = self._room, self.shift
        return union((here, Extent(here.left + dx, here.top + dy, here.right + dx, here.bottom + dy)))

    def read(self, reading: Reading) -> Text:
        """As a page shows it in one unit: `own_reading` or `other_reading`."""
        at = shifted(self.at, *self.shift) if reading is other_reading else self.at
        return replace(self, at=at, text=reading(self.text), shift=(0.0, 0.0))

    @cached_property
    def _room(self) -> Extent:
        width, em = text_width(self.text, self.height), font_size(self.height)
        width *= BOLD if self.style in BOLD_STYLES else 1.0
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        (x, y), up, down = self.at, ASCENDER * em, DESCENDER * em
        if self.upward:
            return Extent(x - up, y - width + before, x + down, y + before)
        return Extent(x - before, y - up, x - before + width, y + down)

    def moved(self, dx: float, dy: float) -> Text:
        """The shape moved by `dx`, `dy` mm."""
        at = shifted(self.at, dx, dy)
        return Text(at, self.text, self.height, self.anchor, self.upward, self.style, self.link, self.shift)


Shape = Line | Polyline | Rect | Circle | Arc | Again | Text


def extents(shapes: Iterable[Shape]) -> Extent:
    """The extent of some shapes together."""
    return union(shape.extent() for shape in shapes)
