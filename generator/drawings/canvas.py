"""A drawing as data: shapes on a sheet of its own, and the canvas on which they are recorded."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from math import ceil, floor
from typing import Any

from generator.drawings.extent import Extent, Point, union
from generator.drawings.letter_sizes import TEXT
from generator.drawings.shapes import Circle, Line, Polyline, Reading, Rect, Shape, Text, extents


@dataclass(frozen=True)
class Drawing:
    """A finished sheet of `width` by `height` mm. `title` and `description` are its text alternative."""

    id: str
    title: str
    description: str
    width: float
    height: float
    shapes: tuple[Shape, ...]
    groups: tuple[tuple[str, int, int], ...] = ()
    """Runs of shapes that another drawing of the page shows again: a name, the first shape and the one after."""
    origin: Point = (0.0, 0.0)
    """Where on the sheet the point 0, 0 of its canvas is."""

    def extents(self) -> Extent:
        """The rectangle that the shapes take, in mm of the sheet."""
        return extents(self.shapes)

    def texts(self) -> tuple[Text, ...]:
        """All lettering."""
        return tuple(shape for shape in self.shapes if isinstance(shape, Text))

    def text_boxes(self, reading: Reading | None = None) -> tuple[tuple[str, Extent], ...]:
        """Every text with the room that it takes, in one of its two readings or in both at once."""
        shown = (text.read(reading) if reading else text for text in self.texts())
        return tuple((text.text, text.extent()) for text in shown)

    def has_links(self) -> bool:
        """True when any shape leads somewhere."""
        return any(getattr(shape, "link", "") for shape in self.shapes)


def drawings_in(value: Any) -> Iterator[Drawing]:
    """All drawings inside a page's values, in order."""
    if isinstance(value, Drawing):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from drawings_in(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from drawings_in(item)


class Canvas:
    """Records shapes in the order in which they are painted; `finish` trims the paper to them."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self.groups: list[tuple[str, int, int]] = []
        self._later: dict[int, Callable[[Canvas], object]] = {}
        self._texts: tuple[int, list[Extent]] = 0, []
        self._reached: tuple[int, Extent] | None = None

    def group(self, name: str, first: int) -> None:
        """Names the shapes from the `first` on, so that another drawing can show them again."""
        self.groups.append((name, first, len(self.shapes)))

    def later(self, room: Extent, draw: Callable[[Canvas], object]) -> None:
        """Keeps a room for what `draw` draws there once the sheet is finished: one that does not fit never is."""
        self._later[len(self.shapes)] = draw
        self.rect(room.left, room.top, room.width, room.height, "paper")

    def add_below_last(self, shape: Shape) -> None:
        """Records a shape under the one that was added last."""
        assert len(self.shapes) - 1 not in self._later
        self.shapes.insert(-1, shape)
        self._reached, self._texts = None, (0, [])

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

    def text_if_free(self, text: Text, room: Extent | None = None, clear: float = 0.0) -> bool:
        """Write `text` if it stays within `room` and `clear` mm off every other text; say whether it was written."""
        box = text.extent()
        if self.is_free(box.grown(clear)) and (room is None or room.contains(box)):
            self.add(text)
            return True
        return False

    def is_free(self, area: Extent) -> bool:
        """Whether no text is in a rectangle."""
        count, rooms = self._texts
        if count < len(self.shapes):
            rooms = [*rooms, *(each.extent() for each in self.shapes[count:] if isinstance(each, Text))]
            self._texts = len(self.shapes), rooms
        return not any(area.overlaps(room) for room in rooms)

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
        count, known = self._reached or (0, None)
        if count < len(self.shapes) or known is None:
            # shapes are only ever added: those of the last time need no second look
            new = extents(self.shapes[count:])
            known = union((known, new)) if known else new
            self._reached = len(self.shapes), known
        return known

    def place(self, other: Canvas, dx: float, dy: float) -> None:
        """Lay another canvas over this one, moved by `dx`, `dy` mm."""
        first = len(self.shapes)
        self.add(*(shape.moved(dx, dy) for shape in other.shapes))
        for index, draw in other._later.items():
            self._later[first + index] = partial(_elsewhere, draw, dx, dy)

    def _settle(self) -> None:
        """Draws what was left for later."""
        if not self._later:
            return
        shapes: list[Shape] = []
        places = []
        for index, shape in enumerate(self.shapes):
            places.append(len(shapes))
            if draw := self._later.get(index):
                part = Canvas()
                draw(part)
                part._settle()
                shapes += part.shapes
            else:
                shapes.append(shape)
        places.append(len(shapes))
        self.groups = [(name, places[first], places[after]) for name, first, after in self.groups]
        self.shapes, self._later, self._reached, self._texts = shapes, {}, None, (0, [])

    def size(self, margin: float) -> tuple[float, float]:
        """Width and height (mm) of the sheet with `margin`: whether it fits its page hangs on no rounding of floats."""
        extent = self.extents().grown(margin)
        return round(extent.width, 6), round(extent.height, 6)

    def finish(self, id: str, title: str, description: str, margin: float = 4.0) -> Drawing:
        """The drawing with `margin` mm of clear paper on every side."""
        extent, (width, height) = self.extents().grown(margin), self.size(margin)
        self._settle()
        shapes = tuple(shape.moved(-extent.left, -extent.top) for shape in self.shapes)
        origin = (-extent.left, -extent.top)
        return Drawing(id, title, description, width, height, shapes, tuple(self.groups), origin)


def _elsewhere(draw: Callable[[Canvas], object], dx: float, dy: float, canvas: Canvas) -> None:
    """What `draw` draws, moved."""
    part = Canvas()
    draw(part)
    canvas.place(part, dx, dy)
