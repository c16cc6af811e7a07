"""Which dimensions a step picture has room for, each where it meets nothing; the dashed edges of a place."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, product

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point
from generator.drawings.eye import Eye
from generator.drawings.iso_dimensions import Fact, LaidOut, Measurement, laid
from generator.drawings.lettering import Fitted
from generator.drawings.painted import Painted
from generator.drawings.scene import scaled
from generator.drawings.shapes import Line, Shape
from generator.drawings.step_clash import clashes, meet, on_bodies

#: Into how many pieces an edge is cut to see where it shows.
PIECES = 24


class Lines:
    """The dimensions of a picture: those tried, those drawn at its scale, and which of these met something."""

    def __init__(self, tried: Sequence[Measurement], *, place_left: bool = False) -> None:
        self.tried, self.place_left = tuple(tried), place_left
        self._drawn: list[tuple[Measurement, LaidOut]] = []
        self._own = (0, 0)
        self.met: tuple[Measurement, ...] = ()
        self.leaders = 0

    @property
    def facts(self) -> frozenset[Fact]:
        """What is measured by those that are drawn: words need not say it."""
        return frozenset(fact for measure, _ in self._drawn for fact in measure.facts)

    @property
    def rooms(self) -> list[Extent]:
        """What the figures take, and the circles of datums (mm)."""
        return [room for _, own in self._drawn for room in (*own.rooms, *own.origins)]

    def draw(self, canvas: Canvas, painted: Painted, view: Eye, scale: float) -> None:
        """Each on its first side where its figures are on no body and it meets no other one."""
        self._drawn = []
        first = len(canvas.shapes)
        for measure in self.tried:
            for number, side in enumerate(measure.sides):
                found = laid(measure, side, view, scale)
                free = not any(meet(found, other) for _, other in self._drawn)
                if free and not on_bodies(found, painted, scale):
                    found.draw(canvas)
                    self._drawn.append((replace(measure, sides=measure.sides[number:]), found))
                    break
        self._own = (first, len(canvas.shapes))

    def look(self, shapes: Sequence[Shape], below: int) -> None:
        """Find which of them meet what else is drawn, apart from the `below` first shapes, the bodies."""
        first, after = self._own
        others = [*shapes[below:first], *shapes[after:]]
        self.met = tuple(measure for measure, own in self._drawn if clashes(own, others))
        self.leaders = sum(isinstance(shape, Line) and shape.style == "iso-halo" for shape in others)

    def fewer(self) -> list[Measurement]:
        """Those to be tried next: the last one that meets something, or takes a leader its way, on its next side."""
        kept = [measure for measure, _ in self._drawn]
        if not kept:
            return []
        last = self.met[-1] if self.met else kept[-1]
        at = kept.index(last)
        return [
            *kept[:at],
            *([replace(last, sides=last.sides[1:])] if last.sides[1:] else []),
            *kept[at + 1 :],
        ]


def with_lines(draw: Callable[[Lines], Fitted], tried: Sequence[Measurement], width: float) -> Fitted:
    """The drawing of a `width` (mm) with as many of the dimensions as meet nothing.

    Where the bench is shown small beside the picture, on the right or the left, is chosen by that. A line to a window
    gives way only where a dimension has no other room: then a letter leads there.
    """
    bare = Lines(())
    best, said = draw(bare), 0
    known: dict[tuple[bool, tuple[Measurement, ...]], tuple[Lines, Fitted]] = {}
    for leaders, left in product((bare.leaders, 0), (False, True)):
        kept = list(tried)
        # fewer than are said already are not worth a try
        while said < len({fact for measure in kept for fact in measure.facts}):
            # both ways with the lines to windows try mostly the same
            if (tried_now := (left, tuple(kept))) not in known:
                lines = Lines(kept, place_left=left)
                known[tried_now] = lines, draw(lines)
            lines, found = known[tried_now]
            if not lines.met and lines.leaders >= leaders and found.width <= max(width, best.width):
                best, said = (found, len(lines.facts)) if len(lines.facts) > said else (best, said)
                break
            kept = lines.fewer()
    return best


def draw_footprint(
    canvas: Canvas, name: str, corners: Sequence[Sequence[float]], painted: Painted, view: Eye, scale: float
) -> None:
    """The edges of a place on a piece, dashed, as far as the piece shows there."""
    for start, end in pairwise((*corners, corners[0])):
        ends = (view.point(start), view.point(end))
        for one, other in _showing(ends, name, painted):
            canvas.line(scaled(one, scale), scaled(other, scale), "hidden")


def _showing(ends: tuple[Point, Point], name: str, painted: Painted) -> Iterator[tuple[Point, Point]]:
    """The runs of a line where a piece shows."""
    (x0, y0), (x1, y1) = ends
    at = [(x0 + (x1 - x0) * n / PIECES, y0 + (y1 - y0) * n / PIECES) for n in range(PIECES + 1)]
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(at)]
    begin: int | None = None
    for number, hidden in enumerate([*painted.covers(middles, {name}), True]):
        if not hidden and begin is None:
            begin = number
        elif hidden and begin is not None:
            yield at[begin], at[number]
            begin = None
