"""A drawing as data: shapes in millimetres of paper, x to the right and y down, that know their extents.

Styles are names; writers give them their looks. Line widths follow ISO 128-2, lettering ISO 3098-1.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, cos, floor, radians, sin

from generator.readings import has_two, other_reading, own_reading

Point = tuple[float, float]

#: Line widths in mm, ISO 128-2: wide to narrow 2 : 1.
WIDE_LINE = 0.5
NARROW_LINE = 0.25

#: Heights of capitals in mm, ISO 3098-1.
SMALL_TEXT = 2.5
TEXT = 3.5
LARGE_TEXT = 5.0

#: Tints of pieces in isometric pictures, and the faces that look towards the viewer.
ISO_TINTS, ISO_FACES = ("bar", "wood", "dark", "tote", "new"), ("top", "left", "right")

#: Every style that a shape may name.
STYLES = frozenset(
    {
        *(
            "outline",
            "frame",
            "thin",
            "hidden",
            "centre",
            "dimension",
            "arrow",
            "hatch",
            "ground",
            "paper",
            "hole",
        ),
        *(
            "fill-bar",
            "fill-wood",
            "fill-new",
            "fill-front",
            "fill-tote",
            "fill-dark",
            "text",
            "note",
            "mark",
            "cut-number",
            "break-down",
        ),
        *("iso-edge", "iso-edge-new", "iso-slot", "iso-halo", "iso-arrow", "iso-mark"),
        *(
            f"iso-{tint}-{face}{edged}"
            for tint in ISO_TINTS
            for face in ISO_FACES
            for edged in ("", "-edged")
        ),
    }
)

BOLD = 1.12
"""How much wider the bold letters of a `mark` are."""

#: Parts of the em of the widest typeface that the drawings name (a common free sans serif).
CAPITAL, ASCENDER, DESCENDER = 0.729, 0.78, 0.24

#: Advance widths in thousandths of the em. Narrower typefaces only leave more room.
WIDTHS = {
    character: width
    for width, characters in (
        (280, "ijl'⁄′"),
        (320, "IJ ,.·"),
        (340, "/:;\\|"),
        (375, "f-″"),
        (395, "()[]t"),
        (415, "!²³r"),
        (500, '*_`–°"'),
        (535, "sz?"),
        (560, "LFc"),
        (580, "k"),
        (605, "vxyP⌀"),
        (616, "TYoae"),
        (637, "EhnuSbdgpq$0123456789{}µ"),
        (660, "K"),
        (690, "AVXZB"),
        (700, "RC"),
        (735, "U"),
        (755, "NH"),
        (790, "DG&OQØ"),
        (840, "w#+<=>^~×±→←↑↓≤≥"),
        (865, "M"),
        (980, "%½¼¾⅛⅜⅝⅞m"),
        (1000, "W@—…"),
    )
    for character in characters
}
#: Any other Latin, Greek or Cyrillic letter; ideographs fill their em.
OTHER_WIDTH, IDEOGRAPH_WIDTH, FIRST_IDEOGRAPH = 1100, 1250, "\u2e80"


@lru_cache(maxsize=16384)
def text_width(text: str, height: float) -> float:
    """An honest upper estimate of the width in mm of `text` in capitals of `height` mm, in its wider reading."""
    if has_two(text):
        return max(text_width(own_reading(text), height), text_width(other_reading(text), height))
    widths = (WIDTHS.get(c, IDEOGRAPH_WIDTH if c >= FIRST_IDEOGRAPH else OTHER_WIDTH) for c in text)
    return sum(widths) / 1000 * font_size(height)


def font_size(height: float) -> float:
    """The em in mm whose capitals are `height` mm high."""
    return height / CAPITAL


def line_height(height: float) -> float:
    """Height in mm of the box of one line of text, from ascender to descender."""
    return (ASCENDER + DESCENDER) * font_size(height)


@dataclass(frozen=True)
class Extent:
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
        """True when `other` lies whole within this rectangle."""
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
    left, top, right, bottom = zip(*((e.left, e.top, e.right, e.bottom) for e in extents), strict=True)
    return Extent(min(left), min(top), max(right), max(bottom))


def shifted(point: Point, dx: float, dy: float) -> Point:
    """A point moved by `dx`, `dy` mm."""
    return (point[0] + dx, point[1] + dy)


@dataclass(frozen=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    style: str

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        return around((self.start, self.end))

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
        return replace(self, corner=shifted(self.corner, dx, dy))


@dataclass(frozen=True)
class Circle:
    """A whole circle."""

    centre: Point
    radius: float
    style: str

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        return around((self.centre,)).grown(self.radius)

    def moved(self, dx: float, dy: float) -> Circle:
        """The shape moved by `dx`, `dy` mm."""
        return replace(self, centre=shifted(self.centre, dx, dy))


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
class Text:
    """One line of lettering. `anchor` is start, middle or end; `upward` text is read from the right."""

    at: Point
    text: str
    height: float = TEXT
    anchor: str = "start"
    upward: bool = False
    style: str = "text"
    link: str = ""

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        width, em = text_width(self.text, self.height), font_size(self.height)
        width *= BOLD if self.style == "mark" else 1.0
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        (x, y), up, down = self.at, ASCENDER * em, DESCENDER * em
        if self.upward:
            return Extent(x - up, y - width + before, x + down, y + before)
        return Extent(x - before, y - up, x - before + width, y + down)

    def moved(self, dx: float, dy: float) -> Text:
        """The shape moved by `dx`, `dy` mm."""
        at = shifted(self.at, dx, dy)
        return Text(at, self.text, self.height, self.anchor, self.upward, self.style, self.link)


@dataclass(frozen=True)
class Group:
    """Shapes that belong together. With a `link` the group leads there; `label` names it to a reader."""

    shapes: tuple[Shape, ...]
    link: str = ""
    label: str = ""

    def extent(self) -> Extent:
        """The rectangle that the shape takes, in mm."""
        return union(shape.extent() for shape in self.shapes)

    def moved(self, dx: float, dy: float) -> Group:
        """The shape moved by `dx`, `dy` mm."""
        return replace(self, shapes=tuple(shape.moved(dx, dy) for shape in self.shapes))


Shape = Line | Polyline | Rect | Circle | Arc | Text | Group


def all_shapes(shapes: Iterable[Shape]) -> Iterable[Shape]:
    """All shapes, groups before what they hold."""
    for shape in shapes:
        yield shape
        if isinstance(shape, Group):
            yield from all_shapes(shape.shapes)


def extents(shapes: Iterable[Shape]) -> Extent:
    """The extent of some shapes together."""
    return union(shape.extent() for shape in shapes)


@dataclass(frozen=True)
class Drawing:
    """A finished sheet of `width` by `height` mm. `title` and `description` are its text alternative."""

    id: str
    title: str
    description: str
    width: float
    height: float
    shapes: tuple[Shape, ...]

    def extents(self) -> Extent:
        """The rectangle that the shapes take, in mm of the sheet."""
        return extents(self.shapes)

    def texts(self) -> tuple[Text, ...]:
        """All lettering, that in groups too."""
        return tuple(shape for shape in all_shapes(self.shapes) if isinstance(shape, Text))

    def text_boxes(self) -> tuple[tuple[str, Extent], ...]:
        """Every text with the room that it takes."""
        return tuple((text.text, text.extent()) for text in self.texts())

    def has_links(self) -> bool:
        """True when any shape leads somewhere."""
        return any(getattr(shape, "link", "") for shape in all_shapes(self.shapes))


class Canvas:
    """Records shapes in the order in which they are painted; `finish` trims the paper to them."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []

    def add(self, *shapes: Shape) -> None:
        """Records shapes on top of those before."""
        self.shapes += shapes

    def line(self, start: Point, end: Point, style: str = "outline") -> None:
        """Records a line."""
        self.add(Line(start, end, style))

    def polyline(self, points: Sequence[Point], style: str = "outline") -> None:
        """Records a run of lines."""
        self.add(Polyline(tuple(points), style))

    def polygon(self, points: Sequence[Point], style: str = "outline", link: str = "") -> None:
        """Records a closed run of lines."""
        self.add(Polyline(tuple(points), style, closed=True, link=link))

    def rect(
        self, x: float, y: float, width: float, height: float, style: str = "outline", radius: float = 0.0
    ) -> None:
        """Records a rectangle from its upper left corner."""
        self.add(Rect((x, y), width, height, style, radius))

    def circle(self, centre: Point, radius: float, style: str = "outline") -> None:
        """Records a circle."""
        self.add(Circle(centre, radius, style))

    def text(
        self,
        at: Point,
        text: str,
        height: float = TEXT,
        anchor: str = "start",
        upward: bool = False,
        style: str = "text",
        link: str = "",
    ) -> None:
        """Records one line of lettering; nothing for an empty one."""
        if text:
            self.add(Text(at, text, height, anchor, upward, style, link))

    def text_if_free(self, text: Text, room: Extent | None = None) -> bool:
        """Write `text` if it stays within `room` and touches no other text; say whether it was written."""
        box = text.extent()
        if self.is_free(box) and (room is None or room.contains(box)):
            self.add(text)
            return True
        return False

    def is_free(self, area: Extent) -> bool:
        """Whether no text stands in a rectangle."""
        return not any(area.overlaps(t.extent()) for t in all_shapes(self.shapes) if isinstance(t, Text))

    def hatch(self, area: Extent, pitch: float = 2.0) -> None:
        """Lines at 45 degrees through a rectangle, `pitch` mm apart; neighbours join without a step."""
        first = ceil((area.left + area.top) / pitch)
        for step in range(first, floor((area.right + area.bottom) / pitch) + 1):
            total = step * pitch
            low, high = max(area.left, total - area.bottom), min(area.right, total - area.top)
            if high - low > 0.05:
                self.line((low, total - low), (high, total - high), "hatch")

    def extents(self) -> Extent:
        """The rectangle that all shapes so far take."""
        return extents(self.shapes)

    def place(self, other: Canvas, dx: float, dy: float) -> None:
        """Lay another canvas over this one, moved by `dx`, `dy` mm."""
        self.add(*(shape.moved(dx, dy) for shape in other.shapes))

    def finish(self, id: str, title: str, description: str, margin: float = 4.0) -> Drawing:
        """The drawing with `margin` mm of clear paper on every side."""
        extent = self.extents().grown(margin)
        shapes = tuple(shape.moved(-extent.left, -extent.top) for shape in self.shapes)
        return Drawing(id, title, description, extent.width, extent.height, shapes)
