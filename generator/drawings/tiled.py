"""A template that is larger than a sheet: its outline on several sheets that are joined, each at full scale.

Neighbours repeat a strip of each other, and the join is in the middle of it, with two targets, on both sheets at the
same coordinate. Lengths are multiplied by the stamp's correction; lettering is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil

from generator.drawings.canvas import Canvas
from generator.drawings.cut_paths import rounded
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.drawings.lettering import shortened
from generator.drawings.paper import Scale
from generator.drawings.strips import INSET, OVERLAP, TARGET
from generator.geometry import Span

AROUND = Fraction(15)
"""How much is drawn around the opening, in mm."""
HEAD = 14.0
"""Room above the drawing for its words, in mm."""
TARGETS = (Fraction(1, 4), Fraction(3, 4))
"""Where the targets of a join are on its line."""


@dataclass(frozen=True)
class LargeOpening:
    """A rectangle out of a part, with round corners, or open to the part's edge at its upper side (mm)."""

    name: str
    where: str
    size: tuple[Fraction, Fraction]
    corner: Fraction
    at_edge: bool

    def lines(self) -> Iterator[tuple[Point, Point]]:
        """Its outline, from its upper left corner, y downward."""
        a, b, beyond = float(self.size[0]), float(self.size[1]), float(AROUND)
        if self.at_edge:
            points = [(-beyond, 0.0), (0.0, 0.0), (0.0, b), (a, b), (a, 0.0), (a + beyond, 0.0)]
        else:
            points = [*rounded(((0.0, 0.0), (a, 0.0), (a, b), (0.0, b)), float(self.corner))]
            points.append(points[0])
        yield from pairwise(points)


@dataclass(frozen=True)
class Patch:
    """What is on one sheet of an opening: from its upper left corner (mm), number `n` of `of`, and the joins there."""

    opening: LargeOpening
    x: Span
    y: Span
    n: int
    of: int
    joins_x: tuple[Fraction, ...]
    joins_y: tuple[Fraction, ...]


def patches(opening: LargeOpening, room: tuple[float, float], scale: Scale) -> list[Patch]:
    """The sheets of an opening in rows from above, for this much room on a sheet (mm)."""
    columns = _spans(opening.size[0], room[0] / scale.x)
    rows = _spans(opening.size[1], room[1] / scale.y)
    count = len(columns) * len(rows)
    return [
        Patch(opening, x, y, r * len(columns) + c + 1, count, _joins(columns, c), _joins(rows, r))
        for r, y in enumerate(rows)
        for c, x in enumerate(columns)
    ]


def _spans(size: Fraction, room: float) -> list[Span]:
    """Stretches of about one length that overlap, over a size and what is drawn around it."""
    low, whole = -AROUND, size + 2 * AROUND
    count = max(1, ceil((whole - OVERLAP) / (Fraction(int(room)) - OVERLAP)))
    pitch = Fraction(ceil((whole - OVERLAP) / count))
    return [Span(low + n * pitch, min(low + whole, low + (n + 1) * pitch + OVERLAP)) for n in range(count)]


def _joins(spans: list[Span], number: int) -> tuple[Fraction, ...]:
    """The middles of the strips that a stretch has in common with those beside it."""
    before = [spans[number].low + OVERLAP / 2] if number else []
    after = [spans[number + 1].low + OVERLAP / 2] if number + 1 < len(spans) else []
    return (*before, *after)


class PatchPainter:
    """Draws one sheet of an opening in a free space."""

    def __init__(self, patch: Patch, ruler: Ruler, free: Extent, scale: Scale) -> None:
        self.patch, self.ruler, self.free, self.scale = patch, ruler, free, scale
        self.canvas = Canvas()

    def draw(self) -> Canvas:
        """Words, outline, centre lines, joins."""
        self._words()
        for start, end in self.patch.opening.lines():
            self._line(start, end, "outline")
        a, b = (float(side) for side in self.patch.opening.size)
        around = float(AROUND)
        self._line((a / 2, -around), (a / 2, b + around), "centre")
        if not self.patch.opening.at_edge:
            self._line((-around, b / 2), (a + around, b / 2), "centre")
        for at in self.patch.joins_x:
            self._join(at, upright=True)
        for at in self.patch.joins_y:
            self._join(at, upright=False)
        return self.canvas

    def _at(self, point: Point) -> Point:
        x, y = point
        return (
            self.free.left + INSET + (x - float(self.patch.x.low)) * self.scale.x,
            self.free.top + HEAD + (y - float(self.patch.y.low)) * self.scale.y,
        )

    def _line(self, start: Point, end: Point, style: str) -> None:
        if inside := clipped(start, end, self.patch.x, self.patch.y):
            self.canvas.line(self._at(inside[0]), self._at(inside[1]), style)

    def _join(self, at: Fraction, *, upright: bool) -> None:
        along = self.patch.y if upright else self.patch.x
        ends = [(float(at), float(v)) if upright else (float(v), float(at)) for v in (along.low, along.high)]
        self.canvas.line(self._at(ends[0]), self._at(ends[1]), "thin")
        words = f"join {'across' if upright else 'down'} @ {self.ruler.text(at)}"
        for share in TARGETS:
            middle = float(along.low + along.size * share)
            x, y = self._at((float(at), middle) if upright else (middle, float(at)))
            self.canvas.circle((x, y), TARGET, "thin")
            arm = (0.0, TARGET) if not upright else (TARGET, 0.0)
            self.canvas.line((x - arm[0], y - arm[1]), (x + arm[0], y + arm[1]), "thin")
        x, y = self._at((float(at), float(along.middle)) if upright else (float(along.middle), float(at)))
        at_words = (x - 1.0, y) if upright else (x, y - 1.0)
        self.canvas.text(at_words, words, SMALL_TEXT, "middle", upward=upright)

    def _words(self) -> None:
        patch, left, width = self.patch, self.free.left + INSET, self.free.width - 2 * INSET
        y = self.free.top + TEXT + 1.0
        title = f"{patch.opening.name}: sheet {patch.n} of {patch.of}"
        self.canvas.text((left, y), shortened(title, width / 1.12, TEXT), TEXT, style="mark")
        edge = " The upper line is the part's edge." if patch.opening.at_edge else ""
        for line in (
            patch.opening.where,
            f"Cut away inside the line.{edge} Lay the joins of two sheets on each other and their targets too.",
        ):
            y += SMALL_TEXT * 1.6
            self.canvas.text((left, y), shortened(line, width, SMALL_TEXT), SMALL_TEXT)


def clipped(start: Point, end: Point, x: Span, y: Span) -> tuple[Point, Point] | None:
    """The part of a line that is in a rectangle; None where it misses it."""
    low, high = 0.0, 1.0
    for axis, span in enumerate((x, y)):
        way, at = end[axis] - start[axis], start[axis]
        if not way:
            if not float(span.low) <= at <= float(span.high):
                return None
            continue
        one, other = sorted(((float(span.low) - at) / way, (float(span.high) - at) / way))
        low, high = max(low, one), min(high, other)
    if low >= high:
        return None
    first, last = (
        (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part) for part in (low, high)
    )
    return first, last
