"""Sections to measure by: a slotted bar with where each size of its card is taken, and a tongue in its groove."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Stretch, arrow, chain, ends, extension, overall
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.figures.rows.checks import Fit
from generator.figures.rows.goods import GoodsFacts

SIDE = 64.0
"""Side of the bar in mm of paper."""
APART = 5.0
"""From one call-out to the next, in mm."""
SHEET_SHOWN, BELOW_GROOVE = 26.0, 9.0
"""How far the sheet is drawn above the face, and the bar below the groove, in mm of paper."""

Call = tuple[Point, str]
"""Where an arrow points, and what is written at its other end."""


def draw_slot(goods: GoodsFacts, ruler: Ruler) -> Drawing | None:
    """A section through the bar, each size with its key; None for timber, which has no slot."""
    slot = (goods.slot_opening, goods.slot_depth, goods.slot_lip, goods.slot_undercut)
    if any(size is None for size in slot):
        return None
    canvas, scale = Canvas(), SIDE / float(goods.section)
    opening, depth, lip, undercut = (float(size or 0) * scale for size in slot)
    names = zip(("opening", "depth", "lip", "undercut"), slot, strict=True)
    said = {name: f"slot.{name} {ruler.fine(size)}" for name, size in names if size is not None}
    canvas.polygon(slotted_outline(SIDE, opening, depth, lip, undercut), "fill-bar")
    middle = SIDE / 2
    above, below = Row("x", -8.0, -1), Row("x", SIDE + 8.0, 1)
    right, left = Row("y", SIDE + 8.0, 1), Row("y", -8.0, -1)
    chain(canvas, above, [_across(middle, opening, said["opening"])], 0.0)
    taken = chain(canvas, below, [_across(middle, undercut, said["undercut"])], SIDE - lip)
    whole = f"section {ruler.fine(goods.section)}"
    overall(canvas, below.next(taken + 8.0), 0.0, SIDE, whole, foot=SIDE)
    thin = Stretch(0.0, lip, said["lip"])
    for at in (thin.low, thin.high):
        extension(canvas, right, at, middle + undercut / 2)
    ends(canvas, right, thin)
    canvas.text((right.at + 3.0, thin.middle + TEXT / 2), thin.text, TEXT)
    chain(canvas, left, [Stretch(0.0, depth, said["depth"])], middle - opening / 2)
    if goods.bore is not None:
        bore = float(goods.bore) * scale / 2
        canvas.circle((middle, middle), bore, "hole")
        tip = (middle + bore * 0.71, middle + bore * 0.71)
        _call(canvas, [(tip, f"bore {ruler.diameter(goods.bore)}")], (SIDE + 4.0, SIDE - 6.0))
    foot = canvas.extents().bottom + 5.0
    canvas.text((0.0, foot), f"Section of the bar, enlarged. {ruler.note}", SMALL_TEXT, style="note")
    words = "Section of the bar with the places at which the sizes of its card are measured."
    return canvas.finish("slot-section", "Section of the bar", words)


def _across(middle: float, width: float, text: str) -> Stretch:
    return Stretch(middle - width / 2, middle + width / 2, text)


def slotted_outline(side: float, opening: float, depth: float, lip: float, undercut: float) -> list[Point]:
    """The outline of a bar `side` square with a slot in each face, clockwise from the upper left corner.

    The hollow behind the lips is drawn narrower towards its floor, so that four of them have room in any bar.
    """
    middle, half, wide = side / 2, opening / 2, undercut / 2
    there = [(-half, 0.0), (-half, lip), (-wide, lip), (-half, depth)]
    back = [(-x, y) for x, y in reversed(there)]
    face = [(0.0, 0.0), *((middle + x, y) for x, y in (*there, *back))]
    points: list[Point] = []
    for _ in range(4):
        points += face
        face = [(side - y, x) for x, y in face]
    return points


def draw_fit(fits: Sequence[Fit], goods: GoodsFacts, ruler: Ruler) -> Drawing | None:
    """A section through the first edge that is captured, with the words of the table of fits."""
    if not fits:
        return None
    fit, canvas, scale = fits[0], Canvas(), SIDE / float(goods.section)
    slotted = goods.slot_opening is not None
    kind, member = ("slot", "bar") if slotted else ("groove", "post")
    groove, sheet, tongue = (
        float(each) * scale for each in (fit.groove, fit.thickness, fit.tongue_thickness)
    )
    reach, gap, offset = (float(each) * scale for each in (fit.tongue, fit.bottom_clearance, fit.offset))
    low, face = reach + gap, offset + sheet / 2
    shoulder = reach - float(fit.rabbet_length) * scale if fit.rabbet_depth else reach
    _grooved(canvas, face, groove, low)
    _tongued(canvas, face, (sheet, tongue), (shoulder, reach))
    top = Row("x", -SHEET_SHOWN - 7.0, -1)
    chain(canvas, top, [_across(face, sheet, f"sheet {ruler.fine(fit.thickness)}")], -SHEET_SHOWN)
    if offset > 0:
        chain(canvas, Row("x", -8.0, -1), [Stretch(0.0, offset, ruler.fine(fit.offset))], 0.0)
        note = (face - sheet / 2 - 1.5, -15.0)
        canvas.text(note, f"face behind {member}", SMALL_TEXT, "end", style="note")
    long = f"{ruler.fine(fit.tongue)} long"
    calls = [((face + tongue / 2, reach * 0.45), f"tongue {ruler.fine(fit.tongue_thickness)} thick, {long}")]
    if fit.rabbet_depth:
        cut = f"{ruler.fine(fit.rabbet_depth)} deep in each face, {ruler.fine(fit.rabbet_length)} long"
        calls.insert(0, ((face + (sheet + tongue) / 4, shoulder), f"rabbet {cut}"))
    calls += [
        ((face + groove / 2, low - gap / 2), f"{kind} {ruler.fine(fit.groove)} wide"),
        ((face, low - gap / 2), f"gap under tongue {ruler.fine(fit.bottom_clearance)}"),
    ]
    _call(canvas, calls, (SIDE + 8.0, -10.0))
    where = f"Section, enlarged: {fit.where}. {ruler.note}"
    canvas.text((0.0, low + BELOW_GROOVE + 7.0), where, SMALL_TEXT, style="note")
    words = f"Section through a tongue in its {kind}, with the words of the table."
    return canvas.finish("fit-section", f"A tongue in its {kind}", words)


def _grooved(canvas: Canvas, face: float, groove: float, low: float) -> None:
    """The bar from its face at y = 0 to below the groove, whose middle is at `face`."""
    foot, left, right = low + BELOW_GROOVE, face - groove / 2, face + groove / 2
    outline = [(0.0, 0.0), (left, 0.0), (left, low), (right, low), (right, 0.0), (SIDE, 0.0)]
    canvas.polygon([*outline, (SIDE, foot), (0.0, foot)], "fill-bar")


def _tongued(canvas: Canvas, face: float, widths: tuple[float, float], stops: tuple[float, float]) -> None:
    """The sheet from above the bar down to the end of its tongue; `stops` are the shoulder's and the tongue's."""
    (sheet, tongue), (shoulder, reach) = widths, stops
    half = [(sheet / 2, -SHEET_SHOWN), (sheet / 2, shoulder), (tongue / 2, shoulder), (tongue / 2, reach)]
    other = [(-x, y) for x, y in reversed(half)]
    canvas.polygon([(face + x, y) for x, y in (*half, *other)], "fill-wood")
    canvas.hatch(Extent(face - sheet / 2, -SHEET_SHOWN, face + sheet / 2, min(shoulder, 0.0)), 2.5)


def _call(canvas: Canvas, calls: Sequence[Call], start: Point) -> None:
    """Texts one below the other from `start`, each with an arrow to its place."""
    for number, (tip, text) in enumerate(calls):
        at = (start[0], start[1] + number * APART)
        canvas.line(at, tip, "dimension")
        arrow(canvas, tip, at)
        canvas.text((at[0] + 1.0, at[1] + SMALL_TEXT / 2), text, SMALL_TEXT)
