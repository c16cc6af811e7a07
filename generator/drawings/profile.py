"""The drawing of one bar: a strip for each face that is machined, and its end with the faces' names."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cache
from math import inf

from generator.bench.piece import MORTISES, TENONS
from generator.drawings.bar_end import draw_end, fill_of
from generator.drawings.bar_faces import drawn_from_below, faces_drawn, opposite, same_from_both_sides
from generator.drawings.bar_map import BarMap, bar_map, draw_breaks
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import ROW, Row, Ruler, Tick, overall, running
from generator.drawings.extent import Point
from generator.drawings.face_sign import WIDTH, draw_cube
from generator.drawings.hole_calls import counted, draw_hole, size_of
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, text_width
from generator.drawings.lettering import fitting, notes
from generator.drawings.part_marks import pieces
from generator.drawings.shapes import Text
from generator.figures.rows.parts import OperationRow, PartRow
from generator.geometry import AXES, FACES

STRIP_LENGTH = 140.0
"""Greatest length in mm of a bar on the paper."""
SECTION_SCALE, BRIEF_SCALE = 0.5, 0.36
"""Largest scale of the section; the same beside a hole table."""
NARROWER = (1.0, 0.85, 0.7, 0.55, 0.4, 0.28)
"""Parts of that scale for bars with so many faces that they are too high for their sheet."""
EXAGGERATION = 2.8
"""The section's scale is at most this many times the length's: a counterbore at S/2 stays clear of the end."""
#: Of two faces that are the same the second is not drawn.
LATER = tuple(high for _, high in FACES.values())
SHORT = 6.0
"""How much longer (mm) than a brief strip is high a word beside its end may be."""
NAME_ROOM = 24.0
"""Room in mm for a face's name to the left of its strip."""

FROM_TO = (*MORTISES, "panel groove")
"""What is marked where it begins and where it ends, not in its middle."""


def draw_profile(
    row: PartRow, ruler: Ruler, *, slot: Fraction | None = None, brief: bool = False, height: float = inf
) -> Drawing:
    """A bar with its holes from the datum end. `slot` is its slots' opening (mm), by default a fifth.

    A `brief` drawing leaves out what a hole table says. It is at most `height` mm high where that can be had. Timber
    has no slots.
    """
    return profile_in(row, ruler, slot=slot)(brief, height)


def profile_in(
    row: PartRow, ruler: Ruler, *, slot: Fraction | None = None
) -> Callable[[bool, float], Drawing]:
    """`draw_profile` for several heights (mm), brief or not: what was drawn for one is there for the next."""
    opening = float(slot if slot is not None else row.width / 5) if row.metal else 0.0

    @cache
    def at_most(largest: float, brief: bool) -> Drawing:
        return _as_large(row, ruler, opening, brief, largest)

    def draw(brief: bool, height: float) -> Drawing:
        largest = BRIEF_SCALE if brief else SECTION_SCALE
        for part in NARROWER:
            drawing = at_most(largest * part, brief)
            if drawing.height <= height:
                break
        return drawing

    return draw


def _as_large(row: PartRow, ruler: Ruler, opening: float, brief: bool, largest: float) -> Drawing:
    """The bar with its section at this scale or a smaller one."""
    return fitting(lambda length: bar_drawing(row, ruler, opening, (length, largest), brief), STRIP_LENGTH)


def bar_drawing(
    row: PartRow, ruler: Ruler, opening: float, most: tuple[float, float], brief: bool
) -> Drawing:
    """The bar at most so long (mm) on the paper, its section at most at this scale."""
    canvas, (length, largest) = Canvas(), most
    places = bar_map(row.length, shown(row), length, largest)
    across = places.scale if places.is_broken else min(largest, EXAGGERATION * places.scale)
    bottom = 0.0
    for face in faces_drawn(row):
        if same_from_both_sides(row, face) and face in LATER:
            continue
        strip = Canvas()
        BarFace(strip, row, face, ruler, places, across).draw(opening, brief)
        canvas.place(strip, 0.0, bottom - strip.extents().top)
        bottom = canvas.extents().bottom + 3.0
    base = canvas.extents().bottom
    overall(canvas, Row("x", base + ROW, 1), 0.0, places.length, ruler.text(row.length), foot=base)
    draw_end(canvas, row, (-NAME_ROOM + 10.0, base + 16.0), opening)
    write_notes(canvas, row, ruler, (16.0, base + 14.0), places.scale == across, places.is_broken, brief)
    return canvas.finish(*profile_named(row, ruler), describe(row, ruler))


def profile_named(row: PartRow, ruler: Ruler) -> tuple[str, str]:
    """Id and title of the drawing."""
    return f"part-{row.mark}", f"{row.mark}: {row.name}, {ruler.text(row.length)} long"


def shown(row: PartRow) -> list[tuple[Fraction, Fraction]]:
    """The stretches of a bar that must be seen: both ends with their threads, and every hole."""
    low, high = FACES[row.along]
    depth = dict.fromkeys((low, high), row.width)
    for operation in end_operations(row):
        depth[operation.face] = max(depth[operation.face], operation.depth or row.width)
    found = [(Fraction(0), depth[low]), (row.length - depth[high], row.length)]
    for operation in row.operations:
        if operation.face not in (low, high):
            half = (operation.size[0] if isinstance(operation.size, tuple) else operation.size) / 2
            found.append((operation.at[0] - half, operation.at[0] + half))
    return found


class BarFace:
    """One long face of a bar as one sees it, datum end at x = 0, the edge that is below on the paper at y = 0."""

    def __init__(
        self, canvas: Canvas, row: PartRow, face: str, ruler: Ruler, places: BarMap, across: float
    ) -> None:
        self.canvas, self.row, self.face, self.ruler = canvas, row, face, ruler
        self.places, self.across = places, across
        self.height = float(breadth_of(row, face)) * across
        self.from_above = not drawn_from_below(row, face)
        low, high = FACES[other_axis(row, face)]
        self.edges = (high, low) if self.from_above else (low, high)
        """The lower and the upper edge on the paper: the strip is what one sees, datum end at the left."""

    def up(self, at: float) -> float:
        """The paper's y of a place so far (mm) across the face, from its left, front or bottom edge."""
        return at * self.across - self.height if self.from_above else -at * self.across

    def point(self, at: tuple[Fraction, Fraction]) -> Point:
        """The paper's point of a place on the face."""
        return (self.places.x(at[0]), self.up(float(at[1])))

    def draw(self, opening: float, brief: bool) -> None:
        """The whole strip: bar, slot, bores, operations, name and distances."""
        canvas, middle = self.canvas, -self.height / 2
        end = self.places.length
        low, high = (float(tenon_length(self.row, each)) for each in FACES[self.row.along])
        start, stop = low * self.places.scale, end - high * self.places.scale
        for tenon in end_operations(self.row):
            if tenon.op in TENONS:
                self.tenon(tenon, start, stop)
        canvas.rect(start, -self.height, stop - start, self.height, fill_of(self.row))
        for side in (-1, 1) if opening else ():
            y = middle + side * opening * self.across / 2
            canvas.line((0.0, y), (end, y), "thin")
        canvas.line((-3.0, middle), (end + 3.0, middle), "centre")
        self.bores(brief)
        here = [o for o in self.row.operations if o.face == self.face]
        through = [o for o in self.row.operations if o.face == opposite(self.face) and o.depth is None]
        for operation in (*through, *sorted(here, key=breadth, reverse=True)):
            self.operation(operation)
        draw_breaks(canvas, self.places, self.height)
        self.name(middle)
        labels = [
            Tick(self.places.x(at), self.ruler.text(at), "" if brief else words)
            for at, words in (
                *self.shoulders(),
                *stations(here, self.ruler, breadth_of(self.row, self.face) / 2, self.edges[self.from_above]),
            )
        ]
        running(
            canvas,
            Row("x", -self.height - 5.0, -1),
            0.0,
            labels,
            -self.height,
            zero_note=FACES[self.row.along][0],
        )
        if brief:
            self.call(here)

    def tenon(self, tenon: OperationRow, start: float, stop: float) -> None:
        """A tenon as this face shows it, before its shoulder."""
        first, _ = (axis for axis in AXES if axis != self.row.along)
        upright = other_axis(self.row, self.face)
        assert isinstance(tenon.size, tuple)
        size = float(tenon.size[0 if upright == first else 1]) * self.across
        middle = self.up(float(breadth_of(self.row, self.face) / 2 + tenon.aside))
        if upright == self.row.across:
            middle = self.up(float(tenon.at[1]))
        x, width = (
            (0.0, start) if tenon.face == FACES[self.row.along][0] else (stop, self.places.length - stop)
        )
        self.canvas.rect(x, middle - size / 2, width, size, fill_of(self.row))

    def shoulders(self) -> list[tuple[Fraction, str]]:
        """Where the shoulder lines are."""
        low, high = (tenon_length(self.row, each) for each in FACES[self.row.along])
        return [(at, "shoulder") for at, cut in ((low, low), (self.row.length - high, high)) if cut]

    def operation(self, operation: OperationRow) -> None:
        """One hole or relief, to the section's scale across."""
        x, y = self.point(operation.at)
        if isinstance(operation.size, tuple):
            width = float(operation.size[0]) * self.places.scale
            height = float(operation.size[1]) * self.across
            radius = min(width, height) * 0.19
            self.canvas.rect(x - width / 2, y - height / 2, width, height, "hole", radius)
        else:
            draw_hole(self.canvas, (x, y), float(operation.size) * self.across / 2, operation)
            reach = float(operation.size) * self.across / 2 + 1.5
            self.canvas.line((x, y - reach), (x, y + reach), "centre")

    def call(self, operations: Sequence[OperationRow]) -> None:
        """Below the bar, what is made at each place along it; places alike are counted, and named once."""
        places: dict[Fraction, list[OperationRow]] = defaultdict(list)
        for operation in operations:
            places[operation.at[0]].append(operation)
        kinds: dict[str, list[Fraction]] = defaultdict(list)
        for at, made in sorted(places.items()):
            label = ", ".join(dict.fromkeys(size_of(each, self.ruler) for each in sorted(made, key=breadth)))
            kinds[label].append(at)
        for label, found in kinds.items():
            words = counted(label, len(found))
            spots = [(self.places.x(at), SMALL_TEXT + 1.2 + row * 3.6) for row in range(3) for at in found]
            for x, y in spots:
                if self.canvas.text_if_free(Text((x, y), words, SMALL_TEXT, "middle"), clear=0.6):
                    break

    def bores(self, brief: bool) -> None:
        """The tapped holes in the ends: hidden lines, and a word beside the end, in a `brief` drawing a short one."""
        for operation in end_operations(self.row):
            if operation.op in TENONS:
                continue
            low = operation.face == FACES[self.row.along][0]
            end = self.places.length
            depth = min(float(operation.depth or self.row.length) * self.places.scale, end)
            half = breadth(operation) * self.across / 2
            start = 0.0 if low else end - depth
            for y in (-self.height / 2 - half, -self.height / 2 + half):
                self.canvas.line((start, y), (start + depth, y), "hidden")
            beside = (-4.5 if low else end + 6.5, -self.height / 2)
            word = end_word(operation)
            if not brief or text_width(word, SMALL_TEXT) < self.height + SHORT:
                # once for all that is in an end
                self.canvas.text_if_free(Text(beside, word, SMALL_TEXT, "middle", upward=True, style="note"))

    def name(self, middle: float) -> None:
        """At the left the face in the cube, its name, and which way is up on the paper."""
        x = -NAME_ROOM / 2 - 6.0
        draw_cube(self.canvas, (x - WIDTH / 2, middle - 2.0), self.face)
        self.canvas.text((x, middle + TEXT - 0.5), self.face, TEXT, "middle", style="mark")
        also = same_from_both_sides(self.row, self.face)
        words = f"and {opposite(self.face)}" if also else f"↑ {self.edges[1]}"
        self.canvas.text((x, middle + TEXT + 3.8), words, SMALL_TEXT, "middle", style="note")


def other_axis(row: PartRow, face: str) -> str:
    """The axis across a bar in one of its long faces."""
    own = next(axis for axis, faces in FACES.items() if face in faces)
    return next(axis for axis in AXES if axis not in (row.along, own))


def breadth_of(row: PartRow, face: str) -> Fraction:
    """How wide a bar is in one of its long faces (mm)."""
    return row.width if other_axis(row, face) == row.across else row.thickness


def tenon_length(row: PartRow, face: str) -> Fraction:
    """Length of the tenon at an end (mm); 0 where there is none."""
    found = (each.depth for each in row.operations if each.op in TENONS and each.face == face)
    return next(found, None) or Fraction(0)


def end_word(operation: OperationRow) -> str:
    """What is written beside a machined end."""
    return f"tap {operation.thread}" if operation.thread else operation.op


def breadth(operation: OperationRow) -> float:
    """Diameter or greatest side of an operation, in mm."""
    return float(max(operation.size) if isinstance(operation.size, tuple) else operation.size)


def end_operations(row: PartRow) -> list[OperationRow]:
    """The operations in the two ends."""
    return [operation for operation in row.operations if operation.face in FACES[row.along]]


def stations(
    operations: Sequence[OperationRow], ruler: Ruler, middle: Fraction, edge: str = ""
) -> list[tuple[Fraction, str]]:
    """Distances from the datum end, each with all that is done there, the narrowest first.

    Whatever is not on the slot at `middle` (mm) gets its distance from the `edge` too, or from the lower one.
    """
    found: dict[Fraction, list[OperationRow]] = defaultdict(list)
    ends: dict[Fraction, list[str]] = defaultdict(list)
    for operation in operations:
        if isinstance(operation.size, tuple) and operation.op in FROM_TO:
            half = operation.size[0] / 2
            found[operation.at[0] - half].append(operation)
            ends[operation.at[0] + half].append(f"end of the {operation.op}")
        else:
            found[operation.at[0]].append(operation)
    begun = [
        (at, " + ".join(words(o, ruler, middle, edge) for o in sorted(found[at], key=breadth)))
        for at in sorted(found)
    ]
    return sorted([*begun, *((at, ", ".join(each)) for at, each in ends.items() if at not in found)])


def words(operation: OperationRow, ruler: Ruler, middle: Fraction | None = None, edge: str = "") -> str:
    """Size and depth of an operation: `Ø8 through`, `Ø14, 13.5 deep`, `40 × 16, through`."""
    depth = "through" if operation.depth is None else f"{ruler.text(operation.depth)} deep"
    if middle is not None and operation.at[1] != middle:
        off = ruler.text(operation.at[1])
        depth += f", {off} from {edge}" if edge else f", {off} up"
    if isinstance(operation.size, tuple):
        name = f"{operation.op} " if operation.op in FROM_TO else ""
        return f"{name}{ruler.size(*operation.size)}, {depth}"
    hole = f"{operation.thread} tapped" if operation.thread else ruler.diameter(operation.size)
    return f"{hole}{' ' if operation.depth is None else ', '}{depth}"


def end_words(operation: OperationRow, ruler: Ruler) -> str:
    """What is done at an end: `Left end: tap M8, 25 deep.`"""
    depth = "through" if operation.depth is None else f"{ruler.text(operation.depth)} deep"
    what = " ".join(part for part in (operation.op, operation.purpose) if part)
    return f"{operation.face.capitalize()} end: {what}, {depth}."


def write_notes(
    canvas: Canvas, row: PartRow, ruler: Ruler, at: Point, one_scale: bool, is_broken: bool, brief: bool
) -> None:
    """What the strips cannot show: the ends, the datum, the scales, what is left out."""
    low, high = FACES[row.along]
    lines: list[str] = []
    for face in () if brief else (low, high):
        # two prongs alike are said once: the picture shows both
        lines += list(dict.fromkeys(end_words(o, ruler) for o in end_operations(row) if o.face == face))
    if row.metal:
        lines.append(
            f"Datum 0 is the {low} end. Holes are on the centre line of the slot, unless another height is given."
        )
    else:
        with_tenon = ", with its tenon" if tenon_length(row, low) else ""
        lines.append(
            f"Datum 0 is the {low} end{with_tenon}. All is in the middle, unless another height is given."
        )
    if row.horns:
        horns = ", ".join(f"{face} {ruler.text(size)}" for face, size in row.horns.items())
        lines.append(
            f"Cut it {ruler.text(row.cut_size[0])} long, with horns: {horns}. Distances are from the finished ends. "
            "Saw the horns off when the glue has set."
        )
    if is_broken:
        lines.append("Between zigzags the bar is drawn shorter than it is.")
    if not one_scale:
        lines.append("Length and section are not to one scale.")
    lines.append(ruler.note)
    notes(canvas, at, pieces(row), lines)


def describe(row: PartRow, ruler: Ruler) -> str:
    """The drawing in words, for those who cannot see it."""
    text = [f"Bar {row.mark}, {ruler.text(row.length)} long, {ruler.size(row.width, row.thickness)} section."]
    for face in faces_drawn(row):
        operations = [o for o in row.operations if o.face == face]
        edge = FACES[other_axis(row, face)][0]
        here = stations(operations, ruler, breadth_of(row, face) / 2, edge)
        if here:
            text.append(f"{face} face: " + "; ".join(f"{ruler.text(at)}: {what}" for at, what in here) + ".")
    text += [end_words(operation, ruler) for operation in end_operations(row)]
    return " ".join(text)
