"""What is done to a part before it is joined: one for an example, with saw, drill and cutter at their places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import cos, pi, sin

from generator.drawings.callouts import BESIDE, BETWEEN
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Row, Ruler, Tick, overall, running
from generator.drawings.extent import Extent, Point
from generator.drawings.hole_calls import size_of
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, TEXT, line_height
from generator.drawings.lettering import wrapped
from generator.drawings.part_sheet import depth
from generator.figures.rows.parts import OperationRow, PartRow

#: How long a bar and how wide and high a board is drawn at most, and how high a bar is (mm).
BAR, BOARD, BOARD_HIGH, HIGH = 132.0, 44.0, 18.0, 8.0
#: The section through a tongue: its largest scale, its greatest height, the room for words beside it (mm).
SECTION, HIGHEST, BESIDE_SECTION = 2.0, 26.0, 42.0
#: Room beside a bar for what is written at the saw (mm).
BESIDE_BAR = 18.0
#: A saw blade: its radius, its teeth, how deep they are (mm).
BLADE, TEETH, DEEP = 6.0, 18, 1.1
#: The slot of a bar is this part of the section from its middle.
SLOT = 0.1
#: The ends of a part by its axis: it is measured from the first.
DATUM: Mapping[str, str] = {"x": "left", "y": "front", "z": "lower"}
#: Each edge of a board by its axis, and whether it is the far one.
EDGES: Mapping[str, tuple[str, bool]] = {
    "left": ("x", False), "right": ("x", True), "front": ("y", False),
    "rear": ("y", True), "bottom": ("z", False), "top": ("z", True),
}  # fmt: skip


def example(rows: Sequence[PartRow]) -> PartRow | None:
    """Of the parts of one step the one that shows most: holes in one face, or edges with a tongue."""
    return max(rows, key=lambda row: (len(_face(row)[1]), len(row.tongues)), default=None)


def draw_work(
    canvas: Canvas, row: PartRow, tools: Sequence[str], ruler: Ruler, at: Point, width: float
) -> float:
    """The part with the tools at it, from an upper left corner, in a `width` (mm); where what is below may begin."""
    x, y = at
    bottom = y
    for piece in _pieces(row, tools, ruler, width):
        room = piece.extents()
        if x > at[0] and x + room.width > at[0] + width:
            x, y = at[0], bottom + BETWEEN
        canvas.place(piece, x - room.left, y - room.top)
        x += room.width + BESIDE
        bottom = max(bottom, y + room.height)
    return bottom + BETWEEN


def _pieces(row: PartRow, tools: Sequence[str], ruler: Ruler, width: float) -> Iterator[Canvas]:
    long = min(BAR, width - BESIDE_BAR)
    yield _bar(row, tools, ruler, long) if row.is_bar else _board(row, tools, ruler)
    if row.tongues and row.rabbet_depth and not row.is_bar:
        yield _tongue(row, tools, ruler)


def _tongue(row: PartRow, tools: Sequence[str], ruler: Ruler) -> Canvas:
    """The section through a tongued edge, the cutter above it, and its sizes in words."""
    canvas, tongue = Canvas(), max(row.tongues.values())
    thin, rabbet = row.tongue_thickness or row.thickness, row.rabbet_depth or Fraction(0)
    shoulder = row.rabbet_length if row.rabbet_length is not None else tongue
    scale = min(SECTION, HIGHEST / float(row.thickness))
    t, r, s = (float(value) * scale for value in (row.thickness, rabbet, shoulder))
    body = s + 16.0
    edge = [(0.0, r), (s, r), (s, 0.0), (body, 0.0), (body, t), (s, t), (s, t - r), (0.0, t - r)]
    canvas.polygon(edge, "fill-new")
    canvas.hatch(Extent(s, 0.0, body, t), 2.5)
    canvas.hatch(Extent(0.0, r, s, t - r), 2.5)
    if "router" in tools:
        _router(canvas, (s / 2, r - 2.0), s / 2)
    beside, y = body + BESIDE, SMALL_TEXT
    for line in (
        f"tongue {ruler.fine(thin)} thick, {ruler.fine(tongue)} into its bar",
        f"cut {ruler.fine(rabbet)} deep and {ruler.fine(shoulder)} wide from both faces",
        f"on edges: {', '.join(row.tongues)}",
        *(("fits in decimals of an inch, lengths in fractions",) if ruler.units == "in" else ()),
    ):
        for part in wrapped(line, BESIDE_SECTION, SMALL_TEXT):
            canvas.text((beside, y), part, SMALL_TEXT)
            y += line_height(SMALL_TEXT) * 1.05
    return canvas


def _face(row: PartRow) -> tuple[str, list[OperationRow]]:
    """The face with the most round holes, and these."""
    faces: dict[str, list[OperationRow]] = {}
    for each in row.operations:
        if not isinstance(each.size, tuple) and not each.thread:
            faces.setdefault(each.face, []).append(each)
    return max(faces.items(), key=lambda face: len({each.at[0] for each in face[1]}), default=("", []))


def _bar(row: PartRow, tools: Sequence[str], ruler: Ruler, long: float) -> Canvas:
    """A bar with the holes of one face from its datum end, the saw at its other end, the drill at its first hole."""
    canvas, scale = Canvas(), long / float(row.length)
    face, holes = _face(row)
    where = f", {face} face" if face else ""
    title = f"For example {row.mark}{where}, from its {DATUM[row.along]} end"
    for number, line in enumerate(reversed(wrapped(title, long / BOLD, TEXT))):
        canvas.text((0.0, -13.0 - number * line_height(TEXT)), line, TEXT, style="mark")
    canvas.rect(0.0, 0.0, long, HIGH, "fill-new")
    if row.metal:
        for side in (-SLOT, SLOT):
            y = HIGH * (0.5 + side)
            canvas.line((0.0, y), (long, y), "thin")
    places: dict[float, str] = {}
    for each in holes:
        x = float(each.at[0]) * scale
        assert not isinstance(each.size, tuple)
        canvas.circle((x, HIGH / 2), max(float(each.size) * scale / 2, 0.7), "hole")
        places.setdefault(x, ruler.text(each.at[0]))
    if places and "drill" in tools:
        _drill(canvas, (min(places), HIGH / 2 - 0.7), f"drill {_hole_sizes(holes, ruler)}")
    if "saw" in tools:
        _saw(canvas, (long, 0.0), HIGH)
    if tap := _tap_of(row, tools):
        _tap(canvas, (0.0, HIGH / 2), tap)
    ticks = [Tick(x, text) for x, text in places.items()]
    running(
        canvas,
        Row("x", HIGH + 4.0, 1),
        0.0,
        [*ticks, Tick(long, ruler.text(row.length))],
        HIGH,
        height=SMALL_TEXT,
    )
    return canvas


def _hole_sizes(holes: Sequence[OperationRow], ruler: Ruler) -> str:
    """`Ø8 to the slot`: what is drilled in a face, each size and depth once."""
    deep = (f"{depth(each, ruler)}{'' if each.depth is None else ' deep'}" for each in holes)
    said = (f"{size_of(each, ruler)} {far}" for each, far in zip(holes, deep, strict=True))
    return " and ".join(dict.fromkeys(said))


def _board(row: PartRow, tools: Sequence[str], ruler: Ruler) -> Canvas:
    """A board with both sizes, the roots of its tongues, and the saw at one end."""
    canvas = Canvas()
    scale = min(BOARD / float(row.length), BOARD_HIGH / float(row.width))
    wide, high = float(row.length) * scale, float(row.width) * scale
    canvas.text((0.0, -13.0), f"For example {row.mark}", TEXT, style="mark")
    canvas.rect(0.0, 0.0, wide, high, "fill-new")
    for edge, deep in row.tongues.items():
        (axis, far), d = EDGES[edge], float(deep) * scale
        if axis == row.along:
            x = wide - d if far else d
            canvas.line((x, 0.0), (x, high), "hidden")
        else:
            y = d if far else high - d
            canvas.line((0.0, y), (wide, y), "hidden")
    if "saw" in tools:
        _saw(canvas, (wide, 0.0), high)
    overall(canvas, Row("x", high + 6.0, 1), 0.0, wide, ruler.text(row.length), high)
    overall(canvas, Row("y", -5.0, -1), 0.0, high, ruler.text(row.width), 0.0)
    return canvas


def _saw(canvas: Canvas, at: Point, high: float) -> None:
    """A saw blade above the line that it cuts."""
    x, y = at[0], at[1] - BLADE + 1.0
    canvas.line((x, y - BLADE - 1.0), (x, at[1] + high + 2.0), "centre")
    points = []
    for tooth in range(TEETH):
        for turn, radius in ((0.0, BLADE), (0.7, BLADE - DEEP)):
            angle = 2 * pi * (tooth + turn) / TEETH
            points.append((x + radius * cos(angle), y + radius * sin(angle)))
    canvas.polygon(points, "paper")
    canvas.polygon(points, "outline")
    canvas.circle((x, y), 0.8, "hole")
    canvas.text((x + BLADE + 1.5, y + SMALL_TEXT / 2), "saw", SMALL_TEXT)


def _drill(canvas: Canvas, tip: Point, words: str) -> None:
    """A drill that comes down on a hole, and to what size and depth."""
    x, y = tip
    canvas.polygon(
        ((x, y), (x - 0.9, y - 1.2), (x - 0.9, y - 9.0), (x + 0.9, y - 9.0), (x + 0.9, y - 1.2)), "hole"
    )
    for turn in range(4):
        canvas.line((x - 0.9, y - 2.0 - 1.7 * turn), (x + 0.9, y - 3.2 - 1.7 * turn), "thin")
    canvas.rect(x - 1.9, y - 12.2, 3.8, 3.2, "hole")
    canvas.text((x + 3.2, y - 8.0), words, SMALL_TEXT)


def _tap_of(row: PartRow, tools: Sequence[str]) -> str:
    """The tap for the thread in the ends of a part; nothing where none is cut."""
    threads = (each.thread for each in row.operations if each.thread)
    return next((tool for tool in tools for thread in threads if tool == f"tap {thread}"), "")


def _tap(canvas: Canvas, tip: Point, name: str) -> None:
    """A tap that goes into the end of a bar."""
    x, y = tip
    canvas.rect(x - 9.0, y - 0.9, 11.0, 1.8, "hole")
    for turn in range(5):
        canvas.line((x - 3.5 + turn, y - 0.9), (x - 3.0 + turn, y + 0.9), "thin")
    canvas.rect(x - 11.5, y - 1.4, 2.5, 2.8, "hole")
    canvas.text((x - 13.0, y + SMALL_TEXT / 2), name, SMALL_TEXT, "end")


def _router(canvas: Canvas, at: Point, half: float) -> None:
    """A cutter that comes down on the edge, so wide that it reaches its shoulder."""
    x, y = at
    canvas.rect(x - 1.2, y - 11.0, 2.4, 6.0, "hole")
    canvas.rect(x - half, y - 5.0, 2 * half, 7.0, "hole")
    canvas.line((x - half, y - 5.0), (x + half, y + 2.0), "thin")
    canvas.text((x + 2.6, y - 8.0), "router", SMALL_TEXT)
