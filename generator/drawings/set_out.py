"""What comes onto the faces of a board, as its user marks it: outlines with marks, from two edges of the board.

Pieces of one row share their views: what is at the same distances from the same edges is drawn once, also where it is
in a mirror.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cache
from math import inf

from generator.bench.on_boards import Point as Place
from generator.bench.on_boards import SetOut
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import ROW, Row, Ruler, Tick, overall, running
from generator.drawings.extent import Extent, Point
from generator.drawings.face import Face, outline
from generator.drawings.face_sign import HEIGHT, WIDTH, draw_up, name_face
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import MARGIN, PAGE_WIDTH, wrapped
from generator.drawings.panel import draw_shoulders
from generator.drawings.panel_words import FAR_FACES, cut_words, runs_through
from generator.drawings.part_marks import pieces
from generator.drawings.set_out_words import FaceView, caption, common, describe, marked
from generator.drawings.shapes import Line, Polyline, Shape, Text
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.geometry import FACES

ALONE, BESIDE, LEAST, LEAST_SLIM = 118.0, 54.0, 42.0, 32.0
"""Greatest width (mm) of a board on the paper with one view, with several, and the least, also on a phone."""
GROOVE = "groove"
GAP = 8.0
"""Clear mm between two views."""


def views(figures: Figures, row: PartRow) -> list[FaceView]:
    """The faces of a row's pieces on which something comes; those that are the same share a view."""
    faces: dict[tuple[str, str], list[SetOut]] = {}
    for each in figures.fillings.set_out:
        if each.part in row.marks:
            faces.setdefault((each.part, each.face), []).append(each)
    alike: dict[object, list[tuple[SetOut, ...]]] = {}
    for found in faces.values():
        own = tuple(sorted(found, key=lambda each: (each.low, each.high, each.name)))
        alike.setdefault(tuple((e.name, e.low, e.high, e.holes, e.axis) for e in own), []).append(own)
    own_datum = next((own[0].datum for (part, _), own in faces.items() if part == row.mark), None)
    return [_view(group, own_datum) for group in alike.values()]


def _view(group: Sequence[tuple[SetOut, ...]], own_datum: tuple[str, str] | None) -> FaceView:
    """Of faces that are the same the first that is read from left to right."""
    first = next((own for own in group if not _from_right(own[0])), group[0])
    others = tuple(own for own in group if own is not first)
    return FaceView(first[0].part, first[0].face, first, others, own_datum or first[0].datum)


def _from_right(each: SetOut) -> bool:
    """Whether the edge from which distances along the paper count is at the right for who looks at the face."""
    edge = next((edge for edge in each.datum if edge not in FACES["z"]), each.datum[0])
    is_high = any(edge == high for _, high in FACES.values())
    return is_high != (each.face in FAR_FACES.values())


def one_view(figures: Figures, row: PartRow) -> bool:
    """Whether one view says all of a board: what comes onto it, its sizes, and grooves from end to end."""
    face = Face(row)
    grooved = all(op.op == GROOVE and runs_through(face, op, 0) for op in row.operations)
    cut = row.tongues or row.notches or row.mitres or row.bands or not row.is_board
    return grooved and not cut and len(views(figures, row)) == 1


def draw_set_out(
    figures: Figures, row: PartRow, ruler: Ruler, height: float = inf, width: float = PAGE_WIDTH
) -> Drawing | None:
    """The views of a row, side by side; None where nothing comes onto its faces.

    The boards are drawn smaller where the drawing would be higher or wider than these (mm). Where it is the only
    drawing of the board it has its sizes too.
    """
    return set_out_in(figures, row, ruler, width)(height)


def set_out_in(
    figures: Figures, row: PartRow, ruler: Ruler, width: float = PAGE_WIDTH
) -> Callable[[float], Drawing | None]:
    """`draw_set_out` of a row in several heights (mm): what one of them has drawn, the next need not draw again."""
    shown, whole = views(figures, row), one_view(figures, row)
    least, slim = (LEAST, "") if width >= PAGE_WIDTH else (LEAST_SLIM, "-slim")
    id, title = set_out_named(row, whole=whole)

    @cache
    def painted(largest: float) -> tuple[Canvas, Extent]:
        painters = (FacePainter(row, view, ruler, largest, whole=whole) for view in shown)
        canvas = _side_by_side([painter.draw() for painter in painters], width - 2 * MARGIN)
        note = " ".join(common(shown, ruler))
        for line in wrapped(note, width - 2 * MARGIN, SMALL_TEXT) if note else ():
            foot = canvas.extents()
            canvas.text((foot.left, foot.bottom + line_height(SMALL_TEXT)), line, SMALL_TEXT, style="note")
        return canvas, canvas.extents().grown(MARGIN)

    @cache
    def finished(largest: float) -> Drawing:
        return painted(largest)[0].finish(f"{id}{slim}", title, describe(shown, ruler))

    def draw(height: float) -> Drawing | None:
        if not shown:
            return None
        largest = ALONE if len(shown) == 1 else BESIDE
        while largest > least:
            room = painted(largest)[1]
            if room.width <= width and room.height <= height:
                break
            largest -= 4.0
        return finished(largest)

    return draw


def set_out_named(row: PartRow, *, whole: bool) -> tuple[str, str]:
    """Id and title of the drawing; of a board that has no other one it is the drawing of the part."""
    return f"{'part' if whole else 'on'}-{row.mark}", f"{row.mark}: {row.name}, what comes onto it"


def _side_by_side(painted: Sequence[Canvas], wide: float) -> Canvas:
    """The views in lines, as many in each as there is room for."""
    canvas, x, y, bottom = Canvas(), 0.0, 0.0, 0.0
    for view in painted:
        room = view.extents()
        if x and x + room.width > wide:
            x, y = 0.0, bottom + GAP
        canvas.place(view, x - room.left, y - room.top)
        x, bottom = x + room.width + GAP, max(bottom, y + room.height)
    return canvas


class FacePainter:
    """One view of a board: its datum corner at (0, 0) of the paper, or at the right end of its lower edge."""

    def __init__(
        self, row: PartRow, view: FaceView, ruler: Ruler, largest: float, *, whole: bool = False
    ) -> None:
        self.whole = whole
        self.canvas, self.row, self.view, self.ruler = Canvas(), row, view, ruler
        self.board = Face(row, largest)
        self.flipped = _from_right(view.items[0])
        turned = self.board.turned
        self.edges = view.datum[::-1] if turned else view.datum
        """The edges from which it is measured rightward and upward."""

    def place(self, at: Place) -> Point:
        """The paper's point of a place from the datum edges, along and across the board."""
        x, y = (float(each) for each in self.board.measured(at))
        x, y = x * self.board.scales[0], y * self.board.scales[1]
        high = [edge in (pair[1] for pair in FACES.values()) for edge in self.edges]
        return (self.board.width - x if self.flipped else x), (y - self.board.height if high[1] else -y)

    def extent(self, each: SetOut) -> Extent:
        """The rectangle on the paper that something takes."""
        (x0, y0), (x1, y1) = self.place(each.low), self.place(each.high)
        return Extent(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))

    def draw(self) -> Canvas:
        """The whole view."""
        self.draw_board()
        for each in sorted(self.view.items, key=lambda each: not each.mark):
            self.draw_item(each)
        if self.whole:
            self.draw_grooves()
        self.name_items()
        self.dimensions()
        if self.whole:
            self.sizes()
        self.name_edges()
        top = self.canvas.extents().top - HEIGHT - 3.0
        left = self.canvas.extents().left
        words = f"{self.view.part}, {self.view.face} face"
        name_face(self.canvas, (left, top), self.view.face, words)
        beside = left + WIDTH + 7.0 + BOLD * text_width(words, TEXT)
        draw_up(self.canvas, (beside, top + HEIGHT), self.opposite(1))
        self.captions()
        return self.canvas

    def draw_board(self) -> None:
        """Outline and shoulders, as the datum edges of the view have them."""
        drawn = Canvas()
        drawn.polygon(outline(self.board), "fill-wood")
        draw_shoulders(drawn, self.board)
        # a piece that is turned about in the bench has its datum edge where the row's own has the other one
        at_left = self.board.edges["left"] in self.view.own_datum
        if at_left == self.flipped:
            middle = self.board.width / 2
            self.canvas.add(*(_mirrored(shape, middle) for shape in drawn.shapes))
        else:
            self.canvas.add(*drawn.shapes)

    def draw_item(self, each: SetOut) -> None:
        """Its outline, dashed where it is only marked, its axis, its holes."""
        room = self.extent(each)
        corners = (
            (room.left, room.top),
            (room.right, room.top),
            (room.right, room.bottom),
            (room.left, room.bottom),
        )
        if room.width > 0.1 and room.height > 0.1:
            if each.mark:
                self.canvas.polygon(corners, "fill-new")
            else:
                self.canvas.polygon(corners, "hidden")
        if each.axis:
            x, y = room.centre
            rightward = (each.axis == "along") != self.board.turned
            ends = (
                ((room.left - 2.0, y), (room.right + 2.0, y))
                if rightward
                else ((x, room.top - 2.0), (x, room.bottom + 2.0))
            )
            self.canvas.line(*ends, "centre")
        for hole in each.holes:
            x, y = self.place(hole)
            self.canvas.circle((x, y), 0.8, "hole")
            self.canvas.line((x, y - 2.0), (x, y + 2.0), "thin")

    def name_items(self) -> None:
        """The mark of each piece in its outline or beside it, the name of what is no piece once beside its first."""
        named = set()
        board = Extent(0.0, -self.board.height, self.board.width, 0.0)
        for each in self.view.items:
            words = each.mark or each.name
            if words in named or each.low[0] == each.high[0]:
                continue
            room = self.extent(each)
            others = [self.extent(other) for other in self.view.items if other is not each and other.mark]
            for text in _tries(room, words, bool(each.mark)):
                free = not any(text.extent().overlaps(other) for other in others)
                if free and self.canvas.text_if_free(text, board):
                    named.add(words)
                    break

    def dimensions(self) -> None:
        """Absolute distances of all that is marked from both datum edges, in rows outside."""
        ticks: tuple[dict[Fraction, None], dict[Fraction, None]] = ({}, {})
        for each in self.view.items:
            for axis, found in enumerate(marked(each)):
                ticks[axis].update(dict.fromkeys(found))
        across, upward = ticks[::-1] if self.board.turned else ticks
        height, scale = self.board.height, self.board.scales
        if across:
            places = [Tick(self._x(float(at) * scale[0]), self.ruler.text(at)) for at in sorted(across)]
            datum = self._x(0.0)
            running(
                self.canvas, Row("x", -height - 4.0, -1), datum, places, -height, zero_note=self.edges[0],
                height=SMALL_TEXT + 0.5,
            )  # fmt: skip
        grooves = self.grooves() if self.whole else {}
        if upward or grooves:
            said = {**dict.fromkeys(upward, ""), **grooves}
            places = [Tick(-float(at) * scale[1], self.ruler.text(at), said[at]) for at in sorted(said)]
            running(
                self.canvas, Row("y", -4.0, -1), 0.0, places, 0.0, zero_note=self.edges[1],
                height=SMALL_TEXT + 0.5,
            )  # fmt: skip

    def grooves(self) -> dict[Fraction, str]:
        """Height of each groove above the lower edge (mm), and what it is."""
        return {
            self.board.measured(op.at)[1]: cut_words([op], self.board, self.ruler)
            for op in self.row.operations
        }

    def draw_grooves(self) -> None:
        """Grooves in the face that is away, dashed."""
        for op in self.row.operations:
            box = self.board.box(op)
            for y in (box.top, box.bottom):
                self.canvas.line((0.0, y), (self.board.width, y), "hidden")

    def sizes(self) -> None:
        """Both sizes of the board."""
        width, height = self.board.width, self.board.height
        along, across = self.board.size
        low = max(self.canvas.extents().bottom, 0.0) + ROW - 2.0
        overall(self.canvas, Row("x", low, 1), 0.0, width, self.ruler.text(along), foot=0.0)
        overall(self.canvas, Row("y", width + ROW, 1), -height, 0.0, self.ruler.text(across), foot=width)

    def _x(self, along: float) -> float:
        return self.board.width - along if self.flipped else along

    def opposite(self, axis: int) -> str:
        """The edge across from a datum edge."""
        pair = next(pair for pair in FACES.values() if self.edges[axis] in pair)
        return pair[1 - pair.index(self.edges[axis])]

    def name_edges(self) -> None:
        """The four edges by their names, within the board where there is room."""
        width, height = self.board.width, self.board.height
        board = Extent(0.0, -height, width, 0.0)
        left, right = (self.opposite(0), self.edges[0]) if self.flipped else (self.edges[0], self.opposite(0))
        inset = 1.6 + max((float(t) * self.board.scales[0] for t in self.row.tongues.values()), default=0.0)
        for words, x in ((left, inset + SMALL_TEXT), (right, width - inset)):
            for share in (0.5, 0.3, 0.7, 0.15, 0.85):
                text = Text((x, -height * share), words, SMALL_TEXT, "middle", upward=True, style="note")
                clear = not any(text.extent().overlaps(self.extent(each)) for each in self.view.items)
                if clear and self.canvas.text_if_free(text, board):
                    break

    def captions(self) -> None:
        """Which other faces have the same, and what is not written at the view."""
        room = self.canvas.extents()
        y = room.bottom + 2.0
        width = max(room.width, BESIDE)
        lines = caption(self.view)
        if self.whole:
            row = self.row
            for part in wrapped(pieces(row), width / BOLD, TEXT):
                y += line_height(TEXT)
                self.canvas.text((room.left, y), part, TEXT, style="mark")
            grain = self.ruler.text(row.length if row.grain == "length" else row.width)
            lines = [
                f"{row.made_of}, {self.ruler.fine(row.thickness)} thick. {self.ruler.note}",
                *([f"Grain along the {grain}."] if row.grain in ("length", "width") else []),
                *(["Dashed groove: in the other face."] if row.operations else []),
                *lines,
            ]
        for line in lines:
            for part in wrapped(line, width, SMALL_TEXT):
                y += line_height(SMALL_TEXT) * 1.2
                self.canvas.text((room.left, y), part, SMALL_TEXT, style="note")


def _tries(room: Extent, words: str, is_piece: bool) -> list[Text]:
    """Where a name may be: a mark in its piece or close to it, any other name below or above what it names."""
    x, y = room.centre
    style = "mark" if is_piece else "note"
    inside = [
        Text((x, y + SMALL_TEXT / 2), words, SMALL_TEXT, "middle", style=style),
        Text((x + SMALL_TEXT / 2, y), words, SMALL_TEXT, "middle", upward=True, style=style),
    ]
    fitting = [text for text in inside if room.contains(text.extent())]
    around = [
        Text((at, line), words, SMALL_TEXT, "middle", style=style)
        for at in (x, x - room.width / 4, x + room.width / 4)
        for line in (room.top - 1.2, room.bottom + SMALL_TEXT + 1.0)
    ]
    half = SMALL_TEXT / 2
    around += [
        Text((at, y + up), words, SMALL_TEXT, "middle", upward=True, style=style)
        for up in (0.0, room.height / 4, -room.height / 4)
        for at in (room.right + half + 2.0, room.left - half)
    ]
    within = [] if is_piece else [text.moved(0.0, room.height / 2 - SMALL_TEXT) for text in inside[:1]]
    return [*fitting, *around] if is_piece else [*around[::-1], *within, *fitting]


def _mirrored(shape: Shape, middle: float) -> Shape:
    """A line or a run of lines in a mirror that stands at x = `middle`."""
    if isinstance(shape, Line):
        (x0, y0), (x1, y1) = shape.start, shape.end
        return Line((2 * middle - x0, y0), (2 * middle - x1, y1), shape.style)
    assert isinstance(shape, Polyline)
    points = tuple((2 * middle - x, y) for x, y in shape.points)
    return Polyline(points, shape.style, shape.closed, shape.link)
