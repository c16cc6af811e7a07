"""Dimensions after ISO 129-1: extension lines, filled arrowheads, running dimensions from one datum.

A row is beside the part. Labels are spread until none touches another; a leader joins each to its mark.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import hypot

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.shapes import Text
from generator.readings import other_reading, own_reading, two_readings
from generator.units.format import TEXTS, format_inch, format_mm, format_thou, rest_inch, rest_mm

ARROW = 2.8
"""Length of an arrowhead in mm; it is 20 degrees wide."""
ARROW_HALF = ARROW * 0.1763
GAP = 1.0
"""Clear mm between the part and its extension line, and between a dimension line and its text."""
OVERRUN = 1.5
"""How far an extension line runs past the dimension line, in mm."""
ROW = 7.5
"""Distance in mm from one dimension line to the next."""
CLEAR = 0.6
"""Least clear mm between two labels."""
NOTE_GAP = 1.5
"""Clear mm between a size and the note behind it."""
ORIGIN = 1.0
"""Radius in mm of the circle that marks the datum."""

FINE_STEP = Fraction(1, 20)
"""What a fit in mm is written to: no saw or router holds less."""


@dataclass(frozen=True)
class Ruler:
    """How lengths are written: in `mm`, or in inches (`in`) to the nearest 1/`denominator`.

    `both` gives every text a second reading in the other unit, for pages on which the reader may switch.
    """

    units: str = "mm"
    denominator: int = 32
    decimals: int = 1
    both: bool = False

    def either(self, metric: str, imperial: str) -> str:
        """What is said in mm, kg, m² or in inches, pounds, square feet, as the manual's unit has it."""
        own, other = (metric, imperial) if self.units == "mm" else (imperial, metric)
        return two_readings(own, other) if self.both else own

    def text(self, length: Fraction) -> str:
        """A length (mm) as text, without its unit."""
        return self.either(
            format_mm(length, decimals=self.decimals), format_inch(length, denominator=self.denominator)
        )

    def rest(self, length: Fraction) -> str:
        """What is left of a piece (mm) as text, rounded down, without its unit."""
        return self.either(rest_mm(length), rest_inch(length, self.denominator))

    def fine(self, length: Fraction) -> str:
        """The size of a fit (mm) as text: to 0.05 mm; in inches a fraction when it is exact, else thousandths."""
        return self.either(*_fine(length.numerator, length.denominator, self.denominator))

    def diameter(self, length: Fraction) -> str:
        """A diameter (mm) with its sign."""
        return f"Ø{self.text(length)}"

    def size(self, along: Fraction, across: Fraction) -> str:
        """Two sizes (mm) as `520 × 509`."""
        return f"{self.text(along)} × {self.text(across)}"

    @property
    def note(self) -> str:
        """What a sheet says about its unit."""
        return self.either("Lengths in mm.", f"Lengths in inches, to 1/{self.denominator}.")


@lru_cache(maxsize=TEXTS)
def _fine(numerator: int, under: int, parts: int) -> tuple[str, str]:
    """A length (mm) to 0.05 mm, and in inches: a fraction to 1/`parts` when it is exact, else thousandths."""
    length = Fraction(numerator, under)
    is_fraction = (length * 5 * parts / 127).denominator == 1
    return (
        format_mm((length / FINE_STEP + Fraction(1, 2)) // 1 * FINE_STEP, decimals=2),
        format_inch(length, denominator=parts) if is_fraction else format_thou(length),
    )


@dataclass(frozen=True)
class Row:
    """A line of dimensions: `at` mm on the other axis, labels `outward` (-1 up or left, 1 down or right)."""

    axis: str
    at: float
    outward: int

    def point(self, along: float, away: float = 0.0) -> Point:
        """The point `along` the row and `away` mm outward of it."""
        across = self.at + self.outward * away
        return (along, across) if self.axis == "x" else (across, along)

    def next(self, by: float = ROW) -> Row:
        """The row `by` mm further out."""
        return Row(self.axis, self.at + self.outward * by, self.outward)


@dataclass(frozen=True)
class Tick:
    """A mark at `at` mm on the paper, its size and what it is."""

    at: float
    text: str
    note: str = ""


@dataclass(frozen=True)
class Stretch:
    """A length between two places on the paper, in mm, with its size as text."""

    low: float
    high: float
    text: str

    @property
    def middle(self) -> float:
        """Its middle on the paper."""
        return (self.low + self.high) / 2


def spread(wanted: Sequence[float], sizes: Sequence[float], clear: float = CLEAR) -> list[float]:
    """Places next to the `wanted` ones, in their order, `clear` mm apart: the least sum of squared shifts.

    Pools neighbours that would collide and sets each pool at its mean. `wanted` ascends.
    """
    starts, total = [], 0.0
    for size in sizes:
        starts.append(total + size / 2)
        total += size + clear
    pools: list[tuple[float, int]] = []
    for want, start in zip(wanted, starts, strict=True):
        value, count = want - start, 1
        while pools and pools[-1][0] >= value:
            mean, members = pools.pop()
            value = (mean * members + value * count) / (members + count)
            count += members
        pools.append((value, count))
    bases = [value for value, count in pools for _ in range(count)]
    return [base + start for base, start in zip(bases, starts, strict=True)]


def arrow(canvas: Canvas, tip: Point, tail: Point) -> None:
    """A filled arrowhead at `tip` of a line that comes from `tail`."""
    dx, dy = tip[0] - tail[0], tip[1] - tail[1]
    length = hypot(dx, dy) or 1.0
    ux, uy = dx / length, dy / length
    x, y = tip[0] - ARROW * ux, tip[1] - ARROW * uy
    wings = ((x - ARROW_HALF * uy, y + ARROW_HALF * ux), (x + ARROW_HALF * uy, y - ARROW_HALF * ux))
    canvas.polygon((tip, *wings), "arrow")


def extension(canvas: Canvas, row: Row, along: float, foot: float, over: float = OVERRUN) -> None:
    """An extension line from the part's edge at `foot` to the row; none where the part reaches it."""
    start = (foot - row.at) * row.outward + GAP
    if start < over:
        canvas.line(row.point(along, start), row.point(along, over), "dimension")


def stroke(canvas: Canvas, row: Row, along: float) -> None:
    """The oblique stroke that ends a dimension where there is no room for an arrowhead."""
    canvas.line(row.point(along - 0.8, -0.8), row.point(along + 0.8, 0.8), "outline")


def ends(canvas: Canvas, row: Row, span: Stretch) -> None:
    """Arrowheads at both ends of a stretch, or strokes where it is short."""
    if span.high - span.low < 2.4 * ARROW:
        stroke(canvas, row, span.low)
        stroke(canvas, row, span.high)
        return
    middle = row.point(span.middle)
    arrow(canvas, row.point(span.low), middle)
    arrow(canvas, row.point(span.high), middle)


def write_on(canvas: Canvas, row: Row, along: float, away: float, text: str, height: float) -> None:
    """Text on a dimension line or on its tier: above it, or left of it and read from the right."""
    x, y = row.point(along, away)
    below = 0.29 * height  # the descender's room
    if row.axis == "x":
        canvas.text((x, y - GAP - below / 3), text, height, "middle")
    else:
        canvas.text((x - GAP - below / 3, y), text, height, "middle", upward=True)


def chain(
    canvas: Canvas, row: Row, spans: Sequence[Stretch], foot: float | None = None, height: float = TEXT
) -> float:
    """Plain dimensions side by side. Texts that do not fit go to an outer tier, spread, with leaders.

    Returns the outermost mm from the row that the texts take.
    """
    if foot is not None:
        for along in sorted({end for span in spans for end in (span.low, span.high)}):
            extension(canvas, row, along, foot)
    tight = []
    for span in spans:
        canvas.line(row.point(span.low), row.point(span.high), "dimension")
        ends(canvas, row, span)
        if text_width(span.text, height) + 2 * CLEAR <= span.high - span.low:
            write_on(canvas, row, span.middle, 0.0, span.text, height)
        else:
            tight.append(span)
    if not tight:
        return line_height(height) + GAP
    return tier(canvas, row, tight, height)


def tier(canvas: Canvas, row: Row, spans: Sequence[Stretch], height: float) -> float:
    """Texts of short dimensions on a tier of their own, each with a leader to its place."""
    room = line_height(height) + 2 * GAP
    inward = row.outward == 1  # texts on the line are on its inner side
    foot = 0.0 if inward else room
    places = spread([s.middle for s in spans], [text_width(s.text, height) for s in spans], 2 * CLEAR)
    for span, place in zip(spans, places, strict=True):
        bend = (row.point(span.middle), row.point(span.middle, foot), row.point(place, foot + 2.0))
        canvas.polyline(bend, "dimension")
        write_on(canvas, row, place, foot + (room if inward else 2.0), span.text, height)
    return foot + 2.0 + room


def overall(canvas: Canvas, row: Row, low: float, high: float, text: str, foot: float | None = None) -> float:
    """One plain dimension, as for an overall size."""
    return chain(canvas, row, (Stretch(low, high, text),), foot)


def running(
    canvas: Canvas,
    row: Row,
    datum: float,
    labels: Sequence[Tick],
    foot: float | None = None,
    *,
    zero_note: str = "",
    height: float = TEXT,
) -> float:
    """Running dimensions: one line from the datum's circle, an arrowhead and an absolute size a mark.

    Labels are across the row, fanned out where they would collide. A 0 is written at the datum unless a label is
    there already. Returns the mm that all this takes outward.
    """
    zero = () if any(label.at == datum for label in labels) else (Tick(datum, "0", zero_note),)
    marks = sorted((*zero, *labels), key=lambda label: label.at)
    places = spread([m.at for m in marks], [line_height(height)] * len(marks))
    shift = max(abs(mark.at - place) for mark, place in zip(marks, places, strict=True))
    fan = OVERRUN + max(2.0, min(14.0, shift * 0.5))
    canvas.line(row.point(marks[0].at), row.point(marks[-1].at), "dimension")
    canvas.circle(row.point(datum), ORIGIN, "dimension")
    stations = sorted({mark.at for mark in marks})
    if foot is not None:
        for station in stations:
            extension(canvas, row, station, foot)
    for side in (-1, 1):
        heads(canvas, row, [s for s in stations[::side] if (s - datum) * side >= 0])
    return stand(canvas, row, marks, places, fan, height)


def heads(canvas: Canvas, row: Row, stations: Sequence[float]) -> None:
    """Arrowheads along a running line, away from the first station; strokes where they would not fit."""
    for before, station in pairwise(stations):
        if abs(station - before) >= ARROW + ORIGIN:
            arrow(canvas, row.point(station), row.point(before))
        else:
            stroke(canvas, row, station)


def stand(
    canvas: Canvas, row: Row, marks: Sequence[Tick], places: Sequence[float], fan: float, height: float
) -> float:
    """Labels at the end of their leaders, each size followed by its note. Returns mm outward from the row."""
    note_height = min(height, SMALL_TEXT)
    reads_outward = row.outward == (-1 if row.axis == "x" else 1)
    anchor = "start" if reads_outward else "end"
    foot = fan + GAP + CLEAR
    reach = foot
    # notes have one column in each unit, right beyond the longest size before them
    beyond, in_other = (
        foot + max((text_width(reading(m.text), height) for m in marks if m.note), default=0.0) + NOTE_GAP
        for reading in (own_reading, other_reading)
    )
    for mark, place in zip(marks, places, strict=True):
        leader = (
            row.point(mark.at),
            row.point(mark.at, OVERRUN),
            row.point(place, fan),
            row.point(place, fan + GAP),
        )
        canvas.polyline(leader, "dimension")
        for text, size, away, shown in (
            (mark.text, height, foot, foot),
            (mark.note, note_height, beyond, in_other),
        ):
            (x, y), (other_x, other_y) = row.point(place, away), row.point(place, shown)
            at = (x + size / 2, y) if row.axis == "x" else (x, y + size / 2)
            if text:
                shift = (other_x - x, other_y - y)
                canvas.add(Text(at, text, size, anchor, row.axis == "x", shift=shift))
        note = max(beyond, in_other) + text_width(mark.note, note_height) if mark.note else 0.0
        reach = max(reach, foot + text_width(mark.text, height), note)
    return reach
