"""The picture of a set-up: blade, fence, stop or cutter with the lengths that its card sets, not to scale beside it.

Small, so that it is beside the steps of its card; each is to a scale that suits it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Tick, overall, running
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.figures.rows.setting_out import Setup, Sketch

WIDTH = 56.0
"""Width of what is set, in mm of paper: beside it is room for text."""
BLADE, STOP = 1.6, 3.0
"""Thickness of a blade and of a stop on the paper."""
BOARD = 12.0
"""Thickness of a board in a section on the paper."""
MOST_STOPS = 12
"""More positions would be written over each other: they are in the card's list alone."""
ROW_GAP = 5.0


def draw_sketch(card: Setup, ruler: Ruler) -> Drawing | None:
    """The picture of a card; None where it has none."""
    if card.sketch is None:
        return None
    canvas = Canvas()
    _SORTS[card.sketch.sort](canvas, card.sketch, ruler)
    words = f"The set-up of this card with its lengths. {ruler.note}"
    return canvas.finish(f"set-up-{card.key}", f"Set-up: {card.title}", words, margin=1.0)


def _stops(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """From above: the piece against the stop or fence, which is drawn at its farthest place."""
    stops = sorted(set(sketch.sizes["stops"]))[-MOST_STOPS:]
    scale = WIDTH / float(stops[-1])
    canvas.rect(0.0, 0.0, WIDTH, 9.0, "fill-bar" if sketch.metal else "fill-wood")
    canvas.rect(-BLADE, -3.0, BLADE, 15.0, "fill-dark")
    canvas.rect(WIDTH, -3.0, STOP, 15.0, "fill-bar")
    for stop in stops[:-1]:
        canvas.line((float(stop) * scale, 0.0), (float(stop) * scale, 9.0), "hidden")
    ticks = [Tick(float(stop) * scale, ruler.text(stop)) for stop in stops]
    running(canvas, Row("x", -6.0, -1), 0.0, ticks, 0.0, height=SMALL_TEXT)
    canvas.text((-BLADE, 16.0), sketch.zero, SMALL_TEXT, style="note")
    canvas.text((WIDTH + STOP, 16.0), sketch.end, SMALL_TEXT, "end", style="note")


def _rabbet(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A section across the edge: the board on the table, the cutter below its end, the cut of the other face."""
    edge, height, thickness, tongue = (
        sketch.sizes[name][0] for name in ("edge", "height", "thickness", "tongue")
    )
    scale = BOARD / float(thickness)
    wide, deep = float(edge) * scale, float(height) * scale
    corners = ((0.0, -deep), (wide, -deep), (wide, 0.0), (38.0, 0.0), (38.0, -BOARD), (wide, -BOARD))
    canvas.polygon((*corners, (wide, deep - BOARD), (0.0, deep - BOARD)), "fill-wood")
    canvas.rect(wide - 14.0, -deep, 14.0, deep + 6.0, "fill-dark")
    _table(canvas, wide, 42.0)
    overall(canvas, Row("x", -BOARD - ROW_GAP, -1), 0.0, wide, ruler.fine(edge), foot=-BOARD)
    left = Row("y", wide - 14.0 - ROW_GAP, -1)
    overall(canvas, left, -deep, 0.0, ruler.fine(height), foot=wide - 14.0)
    overall(canvas, Row("y", 38.0 + ROW_GAP, 1), -BOARD, 0.0, ruler.fine(thickness), foot=38.0)
    middle = Row("y", wide + 9.0, 1)
    overall(canvas, middle, deep - BOARD, -deep, ruler.fine(tongue), foot=wide)
    canvas.text((wide - 13.0, 9.5), "cutter", SMALL_TEXT, style="note")


def _table(canvas: Canvas, start: float, end: float) -> None:
    canvas.line((start, 0.0), (end, 0.0), "ground")
    canvas.text((end, 4.5), "table", SMALL_TEXT, "end", style="note")


def _groove(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A section across the board: it is on the table against the fence, the cutter below it."""
    edge, height, width = (sketch.sizes[name][0] for name in ("edge", "height", "width"))
    scale = 24.0 / float(edge + width)
    low, wide, deep = (float(each) * scale for each in (edge, width, height))
    high = deep + 6.0
    corners = ((0.0, 0.0), (low, 0.0), (low, -deep), (low + wide, -deep), (low + wide, 0.0), (44.0, 0.0))
    canvas.polygon((*corners, (44.0, -high), (0.0, -high)), "fill-wood")
    canvas.rect(low, -deep, wide, deep + 5.0, "fill-dark")
    canvas.rect(-STOP, -high - 4.0, STOP, high + 4.0, "fill-bar")
    _table(canvas, low + wide, 48.0)
    row = Row("x", 5.0 + ROW_GAP, 1)
    overall(canvas, row, 0.0, low, ruler.text(edge), foot=0.0)
    overall(canvas, row, low, low + wide, ruler.fine(width), foot=5.0)
    overall(canvas, Row("y", low + wide + 8.0, 1), -deep, 0.0, ruler.fine(height), foot=low + wide)
    canvas.text((-STOP, -high - 5.5), "fence", SMALL_TEXT, style="note")


def _hole(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A section across the piece, which is against the fence of the drill press."""
    fences, (diameter,) = sketch.sizes["fence"], sketch.sizes["diameter"]
    depths = sketch.sizes["depth"]
    width = fences[0] + fences[-1]
    scale = 28.0 / float(max(width, *depths, diameter))
    wide, half = float(width) * scale, float(diameter) * scale / 2
    high = float(depths[-1]) * scale + 4.0 if depths else 16.0
    canvas.rect(0.0, 0.0, wide, high, "fill-bar" if sketch.metal else "fill-wood")
    canvas.rect(-STOP, -4.0, STOP, high + 4.0, "fill-bar")
    for at in (float(fence) * scale for fence in fences):
        deep = float(depths[-1]) * scale if depths else high
        canvas.rect(at - half, 0.0, 2 * half, deep, "hole")
        canvas.line((at, -3.0), (at, high + 2.0), "centre")
    first = float(fences[0]) * scale
    ticks = [Tick(float(fence) * scale, ruler.text(fence)) for fence in fences]
    running(canvas, Row("x", high + ROW_GAP, 1), 0.0, ticks, high, height=SMALL_TEXT)
    overall(
        canvas, Row("x", -ROW_GAP - 2.0, -1), first - half, first + half, ruler.diameter(diameter), foot=0.0
    )
    if depths:
        deep = float(depths[-1]) * scale
        text = ", ".join(map(ruler.fine if "depth" in sketch.fine else ruler.text, depths))
        overall(canvas, Row("y", wide + ROW_GAP, 1), 0.0, deep, text, foot=float(fences[-1]) * scale + half)
    canvas.text((-STOP, -5.5), "fence", SMALL_TEXT, "middle", style="note")


def _thread(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A section along the end of a bar: the bore, and the full depth of each thread."""
    (bore,), depths = sketch.sizes["bore"], sketch.sizes["depth"]
    scale = 32.0 / float(depths[-1])
    half = float(bore) * scale / 2
    high = 2 * half + 10.0
    canvas.rect(0.0, 0.0, 44.0, high, "fill-bar")
    canvas.rect(0.0, high / 2 - half, 44.0, 2 * half, "hole")
    for side in (-1, 1):
        y = high / 2 + side * half * 1.18
        canvas.line((0.0, y), (float(depths[-1]) * scale, y), "thin")
    row = Row("x", high + ROW_GAP, 1)
    for depth in depths:
        overall(canvas, row, 0.0, float(depth) * scale, ruler.text(depth), foot=high)
        row = row.next(6.0)
    overall(
        canvas, Row("y", -ROW_GAP, -1), high / 2 - half, high / 2 + half, f"Ø{ruler.fine(bore)}", foot=0.0
    )


def _notch(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A corner of the board without its notch."""
    along, across = sketch.sizes["along"][0], sketch.sizes["across"][0]
    scale = 18.0 / float(max(along, across))
    wide, high = float(along) * scale, float(across) * scale
    corners = ((wide, 0.0), (44.0, 0.0), (44.0, 28.0), (0.0, 28.0), (0.0, high), (wide, high))
    canvas.polygon(corners, "fill-wood")
    canvas.polyline(((wide, 0.0), (0.0, 0.0), (0.0, high)), "hidden")
    overall(canvas, Row("x", -ROW_GAP, -1), 0.0, wide, _said(sketch, ruler, "along"), foot=0.0)
    overall(canvas, Row("y", -ROW_GAP, -1), 0.0, high, _said(sketch, ruler, "across"), foot=0.0)


def _slot(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A section across a groove or mortise."""
    width, depth = sketch.sizes["width"][0], sketch.sizes["depth"][0]
    scale = 20.0 / float(max(width, depth))
    wide, deep = float(width) * scale, float(depth) * scale
    left, high = (44.0 - wide) / 2, deep + 8.0
    corners = ((0.0, 0.0), (left, 0.0), (left, deep), (left + wide, deep), (left + wide, 0.0), (44.0, 0.0))
    canvas.polygon((*corners, (44.0, high), (0.0, high)), "fill-wood")
    overall(canvas, Row("x", -ROW_GAP, -1), left, left + wide, _said(sketch, ruler, "width"), foot=0.0)
    overall(canvas, Row("y", 44.0 + ROW_GAP, 1), 0.0, deep, _said(sketch, ruler, "depth"), foot=left + wide)


def _tenon(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """The end of a timber from its narrow side: a tenon with two cheeks, or a lap that half of it leaves."""
    shoulder, stays = float(sketch.sizes["shoulder"][0]), float(sketch.sizes["stays"][0])
    cheek = float(sketch.sizes["cheek"][0]) if "cheek" in sketch.sizes else 0.0
    thick = stays + 2 * cheek if cheek else 2 * stays
    scale = min(22.0 / shoulder, 24.0 / thick)
    long, high, over = shoulder * scale, thick * scale, cheek * scale
    low = over + stays * scale
    corners = ((0.0, over), (long, over), (long, 0.0), (44.0, 0.0), (44.0, high), (long, high))
    canvas.polygon((*corners, (long, low), (0.0, low)), "fill-wood")
    overall(canvas, Row("x", -ROW_GAP, -1), 0.0, long, _said(sketch, ruler, "shoulder"), foot=over)
    overall(canvas, Row("y", -ROW_GAP, -1), over, low, _said(sketch, ruler, "stays"), foot=0.0)
    if cheek:
        right = Row("y", 44.0 + ROW_GAP, 1)
        overall(canvas, right, 0.0, over, _said(sketch, ruler, "cheek"), foot=44.0)


def _said(sketch: Sketch, ruler: Ruler, name: str) -> str:
    """A length as its card writes it."""
    return (ruler.fine if name in sketch.fine else ruler.text)(sketch.sizes[name][0])


def _opening(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """A cut-out in its board, within it or at its lower edge."""
    along, across = sketch.sizes["along"][0], sketch.sizes["across"][0]
    scale = 22.0 / float(max(along, across))
    wide, high = float(along) * scale, float(across) * scale
    left, top = (46.0 - wide) / 2, 5.0
    foot = top + high + (0.0 if sketch.end else 5.0)
    canvas.rect(0.0, 0.0, 46.0, foot, "fill-wood")
    canvas.rect(left, top, wide, high, "hole")
    overall(canvas, Row("x", -ROW_GAP, -1), left, left + wide, ruler.text(along), foot=top)
    overall(canvas, Row("y", 46.0 + ROW_GAP, 1), top, top + high, ruler.text(across), foot=left + wide)


def _template(canvas: Canvas, sketch: Sketch, ruler: Ruler) -> None:
    """The opening in the bar within that of the template, larger by the offset on each side."""
    (along, inner), (across, low) = sketch.sizes["along"], sketch.sizes["across"]
    (offset,) = sketch.sizes["offset"]
    scale = 40.0 / float(along)
    box = Extent(0.0, 0.0, float(along) * scale, float(across) * scale)
    side = float(offset) * scale
    canvas.rect(-6.0, -5.0, box.width + 12.0, box.height + 10.0, "fill-wood")
    canvas.rect(0.0, 0.0, box.width, box.height, "fill-bar")
    canvas.rect(side, side, float(inner) * scale, float(low) * scale, "hole")
    over, under = Row("x", -5.0 - ROW_GAP, -1), Row("x", box.height + 5.0 + ROW_GAP, 1)
    overall(canvas, over, 0.0, box.width, ruler.text(along), foot=0.0)
    overall(canvas, under, side, side + float(inner) * scale, ruler.text(inner), foot=box.height - side)
    overall(canvas, under.next(7.0), 0.0, side, ruler.fine(offset), foot=box.height)
    beside = Row("y", box.width + 6.0 + ROW_GAP, 1)
    overall(canvas, beside, 0.0, box.height, ruler.text(across), foot=box.width)
    other = Row("y", -6.0 - ROW_GAP, -1)
    overall(canvas, other, side, side + float(low) * scale, ruler.text(low), foot=side)


_SORTS: Mapping[str, Callable[[Canvas, Sketch, Ruler], None]] = {
    "stops": _stops,
    "rabbet": _rabbet,
    "groove": _groove,
    "hole": _hole,
    "thread": _thread,
    "notch": _notch,
    "opening": _opening,
    "template": _template,
    "slot": _slot,
    "tenon": _tenon,
}
