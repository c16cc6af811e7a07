"""Dimensions in an isometric scene: in the plane of a face, along an axis, the figure outside the body.

In isometric no axis is foreshortened, so what is measured along one can be measured on the paper too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from math import inf

from generator.drawings.callouts import cross
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import ARROW, CLEAR, GAP, ORIGIN, OVERRUN, arrow, spread
from generator.drawings.extent import Extent, Point, around, shifted
from generator.drawings.eye import Axis, Eye
from generator.drawings.letter_sizes import SMALL_TEXT, line_height, text_width
from generator.drawings.scene import scaled
from generator.drawings.shapes import Text

#: What a dimension says: of which piece, and along which axis it is measured.
Fact = tuple[str, int]

#: From the body to the dimension line, and from there to figures that had to move (mm of paper).
REACH, FAN = 4.5, 3.5
#: How often a figure is moved on until it is clear of its own lines.
MOST_STEPS = 9
#: Half of the oblique stroke that ends a short dimension (mm of paper).
STROKE = 0.8


@dataclass(frozen=True)
class Station:
    """A place that is measured: where on the axis (mm of the bench), its figure, and what this says."""

    at: float
    text: str
    facts: frozenset[Fact]


@dataclass(frozen=True)
class Side:
    """Where a dimension may be: a point of the edge from which it is led out, the axis that leads out, how far."""

    foot: tuple[float, ...]
    out: Axis
    reach: float = REACH
    """From the body to the dimension line (mm of paper)."""


@dataclass(frozen=True)
class Measurement:
    """Places along an axis of the bench from one datum (mm), and the sides on which they may be drawn."""

    axis: int
    datum: float
    stations: tuple[Station, ...]
    sides: tuple[Side, ...]

    @property
    def facts(self) -> frozenset[Fact]:
        """All that it says."""
        return frozenset(fact for station in self.stations for fact in station.facts)


@dataclass
class LaidOut:
    """A dimension on paper: lines, arrowheads from tip to tail, the circle of a datum, figures with their anchor."""

    lines: list[tuple[Point, Point]] = field(default_factory=list)
    heads: list[tuple[Point, Point]] = field(default_factory=list)
    strokes: list[tuple[Point, Point]] = field(default_factory=list)
    line: tuple[Point, Point] = ((0.0, 0.0), (0.0, 0.0))
    """The dimension line, which is among the lines too."""
    datum: Point | None = None
    figures: list[tuple[Point, str, str]] = field(default_factory=list)

    @property
    def rooms(self) -> list[Extent]:
        """What its figures take (mm)."""
        return [_room(*each) for each in self.figures]

    @property
    def origins(self) -> list[Extent]:
        """What the circle of its datum takes (mm)."""
        return [around((self.datum,)).grown(1.3 * ORIGIN)] if self.datum else []

    @property
    def ends(self) -> list[tuple[Point, Point]]:
        """Its strokes, and each arrowhead as a line as long as this."""
        heads = []
        for tip, tail in self.heads:
            share = ARROW / max(_far(tip, tail), ARROW)
            heads.append((tip, (tip[0] + share * (tail[0] - tip[0]), tip[1] + share * (tail[1] - tip[1]))))
        return [*self.strokes, *heads]

    def draw(self, canvas: Canvas) -> None:
        """Lines with a rim of paper, arrowheads, figures."""
        for start, end in self.lines:
            canvas.line(start, end, "iso-halo")
        for start, end in self.lines:
            canvas.line(start, end, "dimension")
        for start, end in self.strokes:
            canvas.line(start, end, "outline")
        for tip, tail in self.heads:
            arrow(canvas, tip, tail)
        if self.datum:
            canvas.circle(self.datum, ORIGIN, "hole")
        for at, text, anchor in self.figures:
            canvas.text(at, text, SMALL_TEXT, anchor)


def laid(measure: Measurement, side: Side, view: Eye, scale: float) -> LaidOut:
    """A measure on one of its sides: one place as a plain dimension, more of them as running ones from a circle."""
    found = LaidOut()
    axis, (out, sign), reach = measure.axis, side.out, side.reach
    away = view.point([float(sign * (i == out)) for i in range(3)])
    along = view.point([float(i == axis) for i in range(3)])

    def paper(at: float, far: float = 0.0) -> Point:
        point = list(side.foot)
        point[axis] = at
        return shifted(scaled(view.point(point), scale), away[0] * far, away[1] * far)

    stations = sorted(measure.stations, key=lambda station: station.at)
    places = sorted({measure.datum, *(station.at for station in stations)})
    found.lines += [(paper(at, GAP), paper(at, reach + OVERRUN)) for at in places]
    found.line = (paper(places[0], reach), paper(places[-1], reach))
    found.lines.append(found.line)
    line = [paper(at, reach) for at in places]
    if len(stations) == 1:
        _ends(found, line[0], line[-1], along)
        middle = (measure.datum + stations[0].at) / 2
        found.figures.append(_clear(found, paper(middle, reach + OVERRUN + GAP), away, stations[0].text))
        return found
    found.datum = paper(measure.datum, reach)
    for way in (1, -1):
        passed = [at for at in places if way * (at - measure.datum) >= 0]
        for before, at in pairwise(sorted(passed, key=lambda at: way * at)):
            _head(found, paper(at, reach), paper(before, reach), along)
    found.figures += _figures(found, measure, reach, scale, (along, away), paper)
    return found


def _figures(
    found: LaidOut,
    measure: Measurement,
    reach: float,
    scale: float,
    ways: tuple[Point, Point],
    paper: Callable[[float, float], Point],
) -> Iterator[tuple[Point, str, str]]:
    """The figure of each place at the end of its line; those too near to each other are spread, with a bend."""
    (along, away), stations = ways, sorted(measure.stations, key=lambda station: station.at)
    pitches = [_pitch(station.text, along) for station in stations]
    wanted = [(station.at - measure.datum) * scale for station in stations]
    for station, want, place in zip(stations, wanted, spread(wanted, pitches), strict=True):
        end = paper(station.at, reach + OVERRUN)
        if abs(place - want) > CLEAR / 2:
            bend = shifted(paper(measure.datum, reach + OVERRUN + FAN), along[0] * place, along[1] * place)
            found.lines.append((end, bend))
            end = bend
        yield _clear(found, shifted(end, away[0] * GAP, away[1] * GAP), away, station.text)


def _pitch(text: str, along: Point) -> float:
    """How far apart along an axis two figures are when neither touches the other (mm)."""
    across = text_width(text, SMALL_TEXT) / abs(along[0]) if abs(along[0]) > 0.1 else inf
    high = line_height(SMALL_TEXT) / abs(along[1]) if abs(along[1]) > 0.1 else inf
    return min(across, high)


def _clear(found: LaidOut, end: Point, away: Point, text: str) -> tuple[Point, str, str]:
    """A figure from the end of a line on, as far out as it must be to be clear of the other lines."""
    for step in range(MOST_STEPS):
        figure = _figure(shifted(end, away[0] * step * CLEAR, away[1] * step * CLEAR), away, text)
        if not any(meets(*line, _room(*figure)) for line in found.lines):
            break
    return figure


def _figure(end: Point, away: Point, text: str) -> tuple[Point, str, str]:
    """A figure at the end of a line that goes `away`: its base line and what of it is anchored there."""
    anchor = "start" if away[0] > 0.1 else "end" if away[0] < -0.1 else "middle"
    return shifted(end, 0.0, SMALL_TEXT / 2), text, anchor


def _room(at: Point, text: str, anchor: str) -> Extent:
    """What a figure takes on paper (mm)."""
    return Text(at, text, SMALL_TEXT, anchor).extent()


def meets(start: Point, end: Point, room: Extent) -> bool:
    """Whether a line comes into a rectangle."""
    (x0, y0), (x1, y1) = start, end
    if (x0 < room.left and x1 < room.left) or (x0 > room.right and x1 > room.right):
        return False
    if (y0 < room.top and y1 < room.top) or (y0 > room.bottom and y1 > room.bottom):
        return False
    corners = (
        (room.left, room.top),
        (room.right, room.top),
        (room.right, room.bottom),
        (room.left, room.bottom),
    )
    inside = any(room.left < x < room.right and room.top < y < room.bottom for x, y in (start, end))
    return inside or any(cross((start, end), edge) for edge in pairwise((*corners, corners[0])))


def _ends(found: LaidOut, low: Point, high: Point, along: Point) -> None:
    """Arrowheads at both ends, or strokes where there is no room for them."""
    if _far(low, high) < 2.4 * ARROW:
        found.strokes += [_stroke(low, along), _stroke(high, along)]
    else:
        found.heads += [(low, high), (high, low)]


def _head(found: LaidOut, tip: Point, before: Point, along: Point) -> None:
    if _far(tip, before) < ARROW + ORIGIN:
        found.strokes.append(_stroke(tip, along))
    else:
        found.heads.append((tip, before))


def _stroke(at: Point, along: Point) -> tuple[Point, Point]:
    """An oblique stroke through the end of a dimension line."""
    x, y = along[0] - along[1], along[0] + along[1]
    return shifted(at, -STROKE * x, -STROKE * y), shifted(at, STROKE * x, STROKE * y)


def _far(one: Point, other: Point) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)
