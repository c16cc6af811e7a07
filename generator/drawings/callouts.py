"""Labels of a step picture: in a column on each side of it, each with a leader to a point of its piece that shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import hypot, inf

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, meets
from generator.drawings.letter_sizes import (
    ASCENDER,
    BOLD,
    LARGE_TEXT,
    SMALL_TEXT,
    TEXT,
    font_size,
    line_height,
    text_width,
)
from generator.drawings.lettering import wrapped

#: Clear mm between the picture and a column, between two labels, and from a leader to its text.
BESIDE, BETWEEN, OFF = 6.0, 2.2, 1.0
#: The widest column (mm); words break there.
WIDEST = 34.0
#: A line that is longer by no more than this stays whole.
BEYOND = 1.16
#: A column with all lines may be this high beside a lower picture (mm).
HIGHEST = 92.0
#: A title of more letters, or a word, is not a mark, and is written smaller.
MARK_LETTERS = 5
#: The point at a leader's end (mm).
DOT = 0.6
#: How much is written of a label: all, what is brief, or the title alone.
PLENTY, BRIEF, NONE = range(3)
#: Of a piece's points this part, the nearest to the column, is where a leader may end.
NEAR = 6
#: What it costs a leader (mm of its length) to cross another, to pass an arrow or a nut, and to be off the middle.
CROSSED, PASSED, OFF_MIDDLE = 400.0, 60.0, 0.6
#: Points of a piece that are tried for its leader.
MOST_TRIED = 40
#: Plumb lines that are tried for the leaders to one stack.
MOST_LINES = 12

_Lines = list[tuple[Point, Point]]


@dataclass(frozen=True)
class Callout:
    """What is said of a piece: its mark or name, lines below it, and where it shows on paper (mm)."""

    title: str
    lines: tuple[str, ...]
    points: tuple[Point, ...]
    link: str = ""
    strong: str = ""
    """A last line in bold."""
    has_size: bool = False
    """Whether a line is a length."""
    widest: float = WIDEST
    """Where its words break (mm)."""
    brief: tuple[str, ...] = ()
    """What is said instead of the lines where there is little room."""
    stack: int | None = None
    """The number of the stack that its piece is in: the labels of one are in the order of their pieces."""

    def rows(self, room: int = PLENTY) -> list[tuple[str, float, str]]:
        """Its lines as text, height and style: all of them, the brief ones, or only its title."""
        is_mark = len(self.title) <= MARK_LETTERS and self.title == self.title.upper()
        height = LARGE_TEXT if is_mark else TEXT
        rows = [(line, height, "mark") for line in wrapped(self.title, self.widest / BOLD, height)]
        if room != NONE:
            rows += [
                (row, SMALL_TEXT, "text")
                for line in (self.lines if room == PLENTY else self.brief)
                for row in self._broken(line)
            ]
            rows += [
                (row, SMALL_TEXT, "mark") for row in wrapped(self.strong, self.widest / BOLD, SMALL_TEXT)
            ]
        return rows

    def _broken(self, line: str) -> list[str]:
        """A line of small text, broken only where it is much too long: no length is parted from its words."""
        if text_width(line, SMALL_TEXT) <= self.widest * BEYOND:
            return [line]
        return wrapped(line, self.widest, SMALL_TEXT)


@dataclass(frozen=True)
class _Placed:
    """A label's rows, and the point of its piece that its leader leads to."""

    label: Callout
    rows: Sequence[tuple[str, float, str]]
    to: Point

    @property
    def height(self) -> float:
        """Height of all rows (mm)."""
        return sum(line_height(height) for _, height, _ in self.rows)

    @property
    def middle(self) -> float:
        """From its upper edge to the middle of its title (mm)."""
        return line_height(self.rows[0][1]) / 2


def draw_callouts(
    canvas: Canvas,
    labels: Sequence[Callout],
    picture: Extent,
    tops: tuple[float, float],
    arrows: Sequence[Extent],
) -> None:
    """The labels beside the picture, in columns of which the left and the right one begin at `tops`.

    Where many are, only brief words or titles are written. Leaders keep off the rooms of `arrows` where they can.
    """
    left, right = _sides(labels, picture.centre[0])
    rooms = ((left, -1, tops[0]), (right, 1, tops[1]))
    for column, side, top in rooms:
        ends = _ends(column, side, arrows)
        for words in (PLENTY, BRIEF, NONE):
            placed = [_Placed(label, label.rows(words), end) for label, end in zip(column, ends, strict=True)]
            needed = sum(each.height + BETWEEN for each in placed) - BETWEEN
            if top + needed <= max(picture.bottom, picture.top + HIGHEST):
                break
        edge = picture.left - BESIDE if side < 0 else picture.right + BESIDE
        _column(canvas, placed, side, (edge, top, max(picture.bottom, top + needed)), arrows)


def _sides(labels: Sequence[Callout], middle: float) -> tuple[list[Callout], list[Callout]]:
    """Each label on the side on which its piece shows, about as many on both."""
    ranked = sorted((label for label in labels if label.points), key=_across)
    on_left = sum(_across(label) < middle for label in ranked)
    half = len(ranked) // 2
    on_left = min(max(on_left, half), len(ranked) - half)
    return ranked[:on_left], ranked[on_left:]


def _across(label: Callout) -> float:
    return sum(x for x, _ in label.points) / len(label.points)


def _ends(column: Sequence[Callout], side: int, arrows: Sequence[Extent]) -> list[Point]:
    """Where each leader ends: on the pieces of one stack one above another, so that their labels are in order."""
    ends = [_to(label, side, arrows) for label in column]
    stacks: dict[int, list[int]] = {}
    for number, label in enumerate(column):
        if label.stack is not None:
            stacks.setdefault(label.stack, []).append(number)
    for numbers in stacks.values():
        own = [column[n] for n in numbers]
        spread = own[0].points[:: 1 + len(own[0].points) // MOST_LINES]
        tries = [_in_line(own, x) for x, _ in (*(ends[n] for n in numbers), *spread)]
        best = min(tries, key=lambda points: _slant(points) + PASSED * _passing(points, side, arrows))
        for n, end in zip(numbers, best, strict=True):
            ends[n] = end
    return ends


def _in_line(labels: Sequence[Callout], x: float) -> list[Point]:
    """The points of each label's piece that are nearest to a plumb line."""
    return [min(label.points, key=lambda point: abs(point[0] - x)) for label in labels]


def _passing(points: Sequence[Point], side: int, arrows: Sequence[Extent]) -> int:
    """How many level lines from points to the column pass an arrow."""
    return sum(
        top < y < bottom and (right > x if side > 0 else left < x)
        for x, y in points
        for left, top, right, bottom in arrows
    )


def _slant(points: Sequence[Point]) -> float:
    """How far points are from one plumb line."""
    return max(x for x, _ in points) - min(x for x, _ in points)


def _to(label: Callout, side: int, arrows: Sequence[Extent]) -> Point:
    """Near the column, yet well within what shows of the piece, and with no arrow on the way to the column."""
    points = list(label.points)
    for left, top, right, bottom in arrows:
        if side > 0:
            points = [(x, y) for x, y in points if not (top < y < bottom and right > x)]
        else:
            points = [(x, y) for x, y in points if not (top < y < bottom and left < x)]
    points = points or list(label.points)
    near = sorted(points, key=lambda point: -side * point[0])[: max(1, len(points) // NEAR)]
    return near[len(near) // 2]


def _column(
    canvas: Canvas,
    placed: Sequence[_Placed],
    side: int,
    room: tuple[float, float, float],
    arrows: Sequence[Extent],
) -> None:
    """One column at an edge, from its top to its bottom; nothing overlaps, and no leader crosses another."""
    edge, top, bottom = room
    anchor, beside = "end" if side < 0 else "start", edge - side * OFF
    in_order = _uncrossed(sorted(placed, key=lambda each: each.to[1]), beside, top, bottom)
    for each, y in _aimed(in_order, beside, arrows):
        start = (beside, y + each.middle)
        canvas.line(start, each.to, "iso-halo")
        canvas.line(start, each.to, "thin")
        canvas.circle(each.to, DOT, "arrow")
        for number, (text, height, style) in enumerate(each.rows):
            base = y + ASCENDER * font_size(height)
            canvas.text(
                (edge, base), text, height, anchor, style=style, link="" if number else each.label.link
            )
            y += line_height(height)


def _aimed(
    placed: Sequence[tuple[_Placed, float]], x: float, arrows: Sequence[Extent]
) -> list[tuple[_Placed, float]]:
    """The same labels, each leader at that point of its piece to which it is short and passes no arrow and no nut.

    Leaders to one stack stay where they are, one above another.
    """
    found = list(placed)
    for number, (each, y) in enumerate(placed):
        start = (x, y + each.middle)
        if each.label.stack is not None:
            continue
        others = [((x, top + other.middle), other.to) for n, (other, top) in enumerate(found) if n != number]
        points = each.label.points
        middle = (sum(a for a, _ in points) / len(points), sum(b for _, b in points) / len(points))

        def far(to: Point, start: Point = start, middle: Point = middle) -> tuple[float, float]:
            off = hypot(to[0] - middle[0], to[1] - middle[1])
            return OFF_MIDDLE * off, hypot(to[0] - x, to[1] - start[1])

        def worth(to: Point, start: Point = start, others: _Lines = others) -> float:
            passed = sum(meets(start, to, room) for room in arrows)
            crossed = sum(cross((start, to), line) for line in others)
            off, length = far(to)
            return CROSSED * crossed + PASSED * passed + off + length

        tries = (each.to, *points[:: 1 + len(points) // MOST_TRIED])
        found[number] = (replace(each, to=_least(tries, [sum(far(to)) for to in tries], worth)), y)
    return found


def _least(tries: Sequence[Point], bounds: Sequence[float], worth: Callable[[Point], float]) -> Point:
    """The first point of the least worth, which is never below a point's bound: few need to be weighed."""
    best, index = inf, 0
    for bound, number in sorted(zip(bounds, range(len(tries)), strict=True)):
        if bound > best:
            break
        best, index = min((best, index), (worth(tries[number]), number))
    return tries[index]


def _uncrossed(placed: Sequence[_Placed], x: float, top: float, bottom: float) -> list[tuple[_Placed, float]]:
    """Labels with their upper edges, in an order in which no two leaders cross; two that do change places."""
    order = list(placed)
    for _ in range(len(order) ** 2):
        edges = _spread(order, top, bottom)
        starts = [(x, y + each.middle) for each, y in zip(order, edges, strict=True)]
        crossed = next(
            (
                (one, other)
                for one, other in combinations(range(len(order)), 2)
                if cross((starts[one], order[one].to), (starts[other], order[other].to))
            ),
            None,
        )
        if crossed is None:
            break
        one, other = crossed
        order[one], order[other] = order[other], order[one]
    return list(zip(order, _spread(order, top, bottom), strict=True))


def cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two lines, each from point to point, cross."""

    ((ax, ay), (bx, by)), ((cx, cy), (dx, dy)) = one, other
    # on which side of a line the ends of the other are
    x, y = bx - ax, by - ay
    if (x * (cy - ay) > y * (cx - ax)) == (x * (dy - ay) > y * (dx - ax)):
        return False
    x, y = dx - cx, dy - cy
    return (x * (ay - cy) > y * (ax - cx)) != (x * (by - cy) > y * (bx - cx))


def _spread(placed: Sequence[_Placed], top: float, bottom: float) -> list[float]:
    """Upper edges of labels, each as near to the height of its piece as the others allow."""
    places = []
    low = top
    for each in placed:
        low = max(low, each.to[1] - each.middle - BETWEEN)
        places.append(low)
        low += each.height + BETWEEN
    high = bottom
    for index in reversed(range(len(places))):
        high -= placed[index].height
        if places[index] <= high:
            break
        places[index] = max(high, top)
        high -= BETWEEN
    return places
